import { describe, expect, it } from 'vitest'
import { assembleSections, type LineFeature } from '@/lib/geo'
import { vertices } from '../../fixtures/geo/lines'

const WHOLE = vertices(-110, 46, [90, 300], [95, 320], [100, 280], [90, 310])
const part = (from: number, to: number, reversed = false): Float64Array => {
  const points = Array.from({ length: to - from + 1 }, (_, i) => WHOLE.slice(2 * (from + i), 2 * (from + i) + 2))
  return Float64Array.from((reversed ? points.reverse() : points).flat())
}
const feature = (rowNo: number, piece: Float64Array | Float64Array[], fields: Partial<LineFeature> = {}): LineFeature => ({
  rowNo,
  circuit: 'Elk 1',
  section: null,
  pieces: Array.isArray(piece) ? piece : [piece],
  ...fields,
})

describe('features of one circuit and section', () => {
  it('join end to end, whatever their order and direction; the first one sets the way ahead', () => {
    const { sections, issues } = assembleSections([feature(1, part(0, 1)), feature(2, part(3, 4, true)), feature(3, part(1, 3, true))])
    expect(issues).toEqual([])
    expect(sections).toHaveLength(1)
    expect([...sections[0]!.lonLat]).toEqual(WHOLE)
    expect(sections[0]!.lengthM).toBeCloseTo(1_210, 3)
    expect(sections[0]!.features.map((one) => one.rowNo)).toEqual([1, 2, 3])
  })

  it('that stand before the first one are put in front of it', () => {
    const { sections } = assembleSections([feature(1, part(2, 4)), feature(2, part(0, 2, true))])
    expect([...sections[0]!.lonLat]).toEqual(WHOLE)
  })

  it('may be one feature of several pieces', () => {
    const { sections, issues } = assembleSections([feature(1, [part(0, 2), part(2, 4, true)])])
    expect(issues).toEqual([])
    expect([...sections[0]!.lonLat]).toEqual(WHOLE)
  })

  it('are told apart by circuit and by section, without regard to capitals', () => {
    const { sections } = assembleSections([
      feature(1, part(0, 2)),
      feature(2, part(2, 4), { circuit: 'ELK 1', section: 'Main' }),
      feature(3, part(0, 2), { section: 'Tap' }),
      feature(4, part(0, 2), { circuit: 'Elk 2' }),
    ])
    expect(sections.map((one) => `${one.circuit}/${one.section}`)).toEqual(['Elk 1/main', 'Elk 1/Tap', 'Elk 2/main'])
  })

  it('across the 180th meridian have their true length', () => {
    const east = [179.99, 52, -179.99, 52]
    const { sections, issues } = assembleSections([feature(1, Float64Array.from(east.slice(0, 4)))])
    expect(issues).toEqual([])
    expect(sections[0]!.lengthM).toBeCloseTo(1_373.3, 0)
  })
})

describe('what does not join is named', () => {
  it('a gap is bridged with a warning that gives its length', () => {
    const far = vertices(WHOLE[8]!, WHOLE[9]!, [90, 412], [90, 300]).slice(2)
    const { sections, issues } = assembleSections([feature(1, part(0, 4)), feature(7, Float64Array.from(far))])
    expect(sections[0]!.lengthM).toBeCloseTo(1_210 + 412 + 300, 0)
    expect(issues).toMatchObject([{ severity: 'warning', row: 7, code: 'gap' }])
    expect(issues[0]!.message).toContain('412 m')
  })

  it('a piece more than 1,500 m away is an error on its row, and the rest is kept', () => {
    const far = vertices(WHOLE[8]!, WHOLE[9]!, [90, 2_000], [90, 300]).slice(2)
    const { sections, issues } = assembleSections([feature(1, part(0, 4)), feature(7, Float64Array.from(far))])
    expect(sections[0]!.lengthM).toBeCloseTo(1_210, 0)
    expect(sections[0]!.features.map((one) => one.rowNo)).toEqual([1])
    expect(issues).toMatchObject([{ severity: 'error', row: 7, code: 'piece-apart' }])
  })

  it('a tap drawn into its main section is an error that asks for a section of its own', () => {
    const tap = vertices(WHOLE[4]!, WHOLE[5]!, [0, 200])
    const { sections, issues } = assembleSections([feature(1, part(0, 2)), feature(2, part(2, 4)), feature(3, Float64Array.from(tap))])
    expect([...sections[0]!.lonLat]).toEqual(WHOLE)
    expect(issues).toMatchObject([{ severity: 'error', row: 3, code: 'branch', field: 'section' }])
  })

  it('a piece that stands in the file twice is used once', () => {
    const { sections, issues } = assembleSections([feature(1, part(0, 4)), feature(2, part(0, 4, true))])
    expect(sections[0]!.lengthM).toBeCloseTo(1_210, 0)
    expect(issues).toMatchObject([{ severity: 'warning', row: 2, code: 'piece-twice' }])
  })

  it.each([
    ['a latitude over 90', [46, -110, 46.1, -110.1], 'coordinate-range'],
    ['a longitude over 180', [-190, 46, -190.1, 46], 'coordinate-range'],
    ['no number', [Number.NaN, 46, -110, 46], 'coordinate-range'],
    ['vertices on one spot', [-110, 46, -110, 46], 'line-too-short'],
    ['one vertex', [-110, 46], 'line-too-short'],
    ['nothing', [], 'line-too-short'],
    ['a vertex on another continent', [-110, 46, 10, 46], 'vertices-far-apart'],
    ['the antipode', [-110, 46, 70, -46], 'vertices-far-apart'],
  ])('%s is an error, never a throw', (_, flat, code) => {
    const { sections, issues } = assembleSections([feature(4, Float64Array.from(flat))])
    expect(sections).toEqual([])
    expect(issues).toMatchObject([{ severity: 'error', row: 4, code }])
    expect(issues[0]!.remedy).not.toBe('')
  })
})
