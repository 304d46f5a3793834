import { describe, expect, it } from 'vitest'
import {
  assembleSections,
  attachStructures,
  buildSpans,
  calibrateLineDistance,
  declaredDistanceIssues,
  type AssembledSection,
  type StructurePoint,
} from '@/lib/geo'
import { beside, vertices } from '../../fixtures/geo/lines'

const LINE = vertices(-110, 46, [90, 300], [90, 300], [90, 300], [90, 300])
const assembled = (...circuits: { circuit: string; section?: string; lonLat?: number[] }[]): AssembledSection[] =>
  assembleSections(
    circuits.map(({ circuit, section, lonLat = LINE }, i) => ({
      rowNo: i + 1,
      circuit,
      section: section ?? null,
      pieces: [Float64Array.from(lonLat)],
    })),
  ).sections

const structure = (rowNo: number, name: string, alongM: number, rightM = 0, fields: Partial<StructurePoint> = {}): StructurePoint => ({
  rowNo,
  circuit: null,
  section: null,
  structure: name,
  lineDistanceM: null,
  ...beside(LINE, alongM, rightM),
  ...fields,
})

describe('structures', () => {
  it('stand on the vertex they are drawn at, else on the nearest point of the line', () => {
    const { attached, issues } = attachStructures(assembled({ circuit: 'A' }), [structure(1, '045', 300, 1), structure(2, '45A', 420, 6)])
    expect(issues).toEqual([])
    expect(attached.map(({ at }) => at)).toEqual(['vertex', 'line'])
    expect(attached[0]!.lineDistanceM).toBeCloseTo(300, 6)
    expect(attached[1]!.lineDistanceM).toBeCloseTo(420, 2)
    expect(attached[1]!.besideM).toBeCloseTo(6, 2)
  })

  it('serve every circuit that passes them', () => {
    const { attached } = attachStructures(assembled({ circuit: 'A' }, { circuit: 'B' }), [structure(1, '1', 300)])
    expect(attached.map(({ section }) => section)).toEqual([0, 1])
  })

  it('go on their own circuit only where they name it', () => {
    const { attached } = attachStructures(assembled({ circuit: 'A' }, { circuit: 'B' }), [structure(1, '1', 300, 0, { circuit: 'b' })])
    expect(attached.map(({ section }) => section)).toEqual([1])
  })

  it('without a position stand at their declared line distance', () => {
    const { attached } = attachStructures(assembled({ circuit: 'A' }), [
      structure(1, '1', 0, 0, { circuit: 'A', lon: null, lat: null, lineDistanceM: 450 }),
    ])
    expect(attached).toMatchObject([{ at: 'declared', lineDistanceM: 450 }])
    expect(attached[0]!.lon).toBeCloseTo(beside(LINE, 450, 0).lon, 8)
  })

  it.each([
    ['off every line', structure(3, '9', 300, 60), 'structure-off-line', 'error'],
    ['on a circuit nobody knows', structure(3, '9', 300, 0, { circuit: 'Z' }), 'unknown-circuit', 'error'],
    ['on a section nobody knows', structure(3, '9', 300, 0, { circuit: 'A', section: 'Tap' }), 'unknown-circuit', 'error'],
    [
      'without position and line distance',
      structure(3, '9', 300, 0, { circuit: 'A', lon: null, lat: null }),
      'structure-without-place',
      'error',
    ],
    ['beyond the end', structure(3, '9', 0, 0, { circuit: 'A', lon: null, lat: null, lineDistanceM: 5_000 }), 'beyond-the-line', 'error'],
    ['35 m beside the circuit it names', structure(3, '9', 300, 35, { circuit: 'A' }), 'structure-beside-line', 'warning'],
  ] as const)('%s are named', (_, point, code, severity) => {
    const { attached, issues } = attachStructures(assembled({ circuit: 'A' }), [point])
    expect(issues).toMatchObject([{ row: 3, code, severity }])
    expect(attached).toHaveLength(severity === 'warning' ? 1 : 0)
  })

  it('keep one place per name and one name per place', () => {
    const { attached, issues } = attachStructures(assembled({ circuit: 'A' }), [
      structure(1, '1', 0),
      structure(2, '2', 300),
      structure(3, '2', 301),
      structure(4, '2', 600),
      structure(5, '3', 300.1),
    ])
    expect(attached.map((one) => one.structure.structure)).toEqual(['1', '2'])
    expect(issues.map(({ row, code }) => `${row} ${code}`)).toEqual([
      '3 structure-twice',
      '4 structure-name-twice',
      '5 structures-same-place',
    ])
  })
})

describe('spans', () => {
  const spansOf = (points: StructurePoint[], lonLat = LINE) => {
    const [section] = assembled({ circuit: 'A', lonLat })
    return buildSpans(section!, attachStructures([section!], points).attached, 12)
  }

  it('run between neighbouring named structures; other vertices are shape points without a name', () => {
    const { spans, issues } = spansOf([structure(1, '1', 0), structure(2, '2', 600), structure(3, '3', 1_200)])
    expect(issues).toEqual([])
    expect(
      spans.map((one) => [one.structureBack?.structure.structure, one.structureAhead?.structure.structure, one.lonLat.length / 2]),
    ).toEqual([
      ['1', '2', 3],
      ['2', '3', 3],
    ])
    expect(spans.map((one) => Math.round(one.endM - one.startM))).toEqual([600, 600])
  })

  it('begin and end at the ends of the section where no structure stands', () => {
    const { spans } = spansOf([structure(2, '2', 500)])
    expect(spans.map(({ ord, startM, endM }) => [ord, Math.round(startM), Math.round(endM)])).toEqual([
      [0, 0, 500],
      [1, 500, 1_200],
    ])
    expect(spans[0]!.structureBack).toBeUndefined()
    expect(spans[1]!.structureAhead).toBeUndefined()
  })

  it('without any structure are the whole section', () => {
    expect(spansOf([]).spans).toMatchObject([{ startM: 0 }])
  })

  it('over 1,500 m ask whether structures are missing', () => {
    const long = vertices(-110, 46, [90, 300], [90, 1_600])
    const { issues } = spansOf([], long)
    expect(issues).toMatchObject([{ severity: 'warning', row: 12, code: 'structures-missing' }])
    expect(issues[0]!.message).toMatch(/^Structures missing\? .* \{1900 m\} long/)
  })

  it('share their end points', () => {
    const { spans } = spansOf([structure(1, '1', 0), structure(2, '2', 450, 5), structure(3, '3', 1_200)])
    expect([...spans[0]!.lonLat.slice(-2)]).toEqual([...spans[1]!.lonLat.slice(0, 2)])
  })
})

describe('declared line distances', () => {
  const declared = (figures: number[]) => {
    const [section] = assembled({ circuit: 'A' })
    const points = figures.map((lineDistanceM, i) => structure(i + 1, `${i + 1}`, 300 * i, 0, { lineDistanceM }))
    return declaredDistanceIssues(section!, attachStructures([section!], points).attached)
  }

  it('within 1 % are taken as they are, also when counted from elsewhere or backwards', () => {
    expect(declared([0, 301, 602, 903, 1_204])).toEqual([])
    expect(declared([12_000, 12_300, 12_600, 12_900, 13_200])).toEqual([])
    expect(declared([1_200, 900, 600, 300, 0])).toEqual([])
  })

  it('over 1 % are a warning on their row', () => {
    expect(declared([0, 300, 600, 915, 1_200])).toMatchObject([
      { severity: 'warning', row: 4, code: 'declared-distance-differs', value: '915' },
    ])
  })

  it('calibrate what is displayed, straight in between and shifted beyond', () => {
    const display = calibrateLineDistance([
      { lineDistanceM: 100, declaredLineDistanceM: 1_000 },
      { lineDistanceM: 300, declaredLineDistanceM: 1_210 },
    ])
    expect([0, 100, 200, 300, 400].map(display)).toEqual([900, 1_000, 1_105, 1_210, 1_310])
    expect(calibrateLineDistance([])(123)).toBe(123)
  })
})
