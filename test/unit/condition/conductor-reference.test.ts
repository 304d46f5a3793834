import { describe, expect, it } from 'vitest'
import { conductorByCode, conductorsThatFit, defaultPolicy, explain } from '@/lib/condition'
import { referenceBand } from '@/lib/condition/conductor-check'
import { actionCodes, judge, reasonCodes, reasonOf, resistance } from './evidence'

describe('a code word', () => {
  it.each([
    ['drake', 'Drake'], ['DRAKE', 'Drake'], [' Drake ', 'Drake'], ['795 kcmil 26/7 ACSR "Drake"', 'Drake'], ['ACSR Drake', 'Drake'],
    ['24 al1', '24-AL1'], ['Bobolink', 'Bobolink'],
  ])('%s is %s', (text, code) => {
    expect(conductorByCode(text)?.code).toBe(code)
  })

  it.each(['Drake/ACSS', 'ACSR/TW Drake', 'Phoenix', '', 'Drake Linnet'])('%s is none of the table', (text) => {
    expect(conductorByCode(text)).toBeNull()
  })
})

describe('the conductor reading', () => {
  it('is taken from the table where nobody measured it, with 6 % and a flag', () => {
    const assessment = judge([resistance({ conductorUohm: undefined })])
    expect(assessment.flags).toEqual(['conductor-from-table'])
    expect(assessment.sides[0]?.conductorUohm).toBeCloseTo(21.8542, 4)
    expect(assessment.sides[0]?.uConductorUohm).toBeCloseTo(0.06 * 21.8542, 4)
    expect(assessment.sides[0]?.reference).toBe('table')
    expect(actionCodes(assessment)).toContain('measure-conductor')
    // 66 µΩ against 21.85 µΩ is 3.02: as sure as can be by its numbers, and yet against a code word on record.
    expect(judge([resistance({ sideAUohm: 66 })]).confidence).toBe('high')
    expect(judge([resistance({ sideAUohm: 90, conductorUohm: undefined })])).toMatchObject({ class: 'critical', confidence: 'medium' })
  })

  it('is taken from the table, provisionally, where what was written for it cannot be a reading', () => {
    const assessment = judge([resistance({ sideAUohm: 90, conductorUohm: undefined, conductorUnusable: '0' })])
    expect(assessment).toMatchObject({ class: 'critical', confidence: 'low' })
    expect(assessment.flags).toEqual(expect.arrayContaining(['conductor-from-table', 'provisional']))
    expect(reasonOf(assessment, 'conductor-unusable')?.values).toEqual({ typed: '0' })
    expect(judge([resistance({ conductorUohm: undefined, conductorUnusable: '0' })], { conductorCode: undefined }).class).toBe('unknown')
  })

  it.each([
    ['span', { conductorUohm: undefined, electrodeSpanM: undefined }, {}], ['code', { conductorUohm: undefined },
      { conductorCode: undefined }],
    ['table', { conductorUohm: undefined }, { conductorCode: 'Phoenix' }],
  ])('without a %s for the table leaves the splice unknown', (missing, fields, facts) => {
    const assessment = judge([resistance(fields)], facts)
    expect(assessment.class).toBe('unknown')
    expect(reasonOf(assessment, 'no-conductor-reference')?.values.missing).toBe(missing)
  })

  it('at both ends is the mean where they agree within 5 %', () => {
    const assessment = judge([resistance({ conductorUohm: 21, conductorBUohm: 22 })])
    expect(assessment.flags).toEqual([])
    expect(assessment.sides[0]?.conductorUohm).toBeCloseTo(21.5, 12)
  })

  it('at both ends is the lower one where they do not', () => {
    const assessment = judge([resistance({ conductorUohm: 22.5, conductorBUohm: 21 })])
    expect(assessment.flags).toEqual(['conductor-references-differ'])
    expect(assessment.sides[0]?.conductorUohm).toBe(21)
  })

  it('7 to 20 % off the table is a remark', () => {
    const assessment = judge([resistance({ conductorUohm: 24 })])
    expect(assessment.flags).toEqual(['conductor-reference-warn'])
    // A reference 7 to 20 % off its table makes acceptance conditional (common practice): never high.
    expect(assessment.confidence).toBe('medium')
    const { ratio, tableRatio } = reasonOf(assessment, 'measured-governs')?.values ?? {}
    expect(ratio).toBeCloseTo(15.05 / 24, 12)
    // Drake: 71.7 µΩ/m at 20 °C, 21.85 µΩ over a foot.
    expect(tableRatio).toBeCloseTo(15.05 / 21.85, 2)
  })

  it('more than 20 % off makes the ratio provisional and names conductors that fit', () => {
    const assessment = judge([resistance({ sideAUohm: 10, sideBUohm: 10, conductorUohm: 13.6 })])
    expect(assessment.flags).toEqual(['conductor-reference-suspect', 'provisional'])
    expect(assessment.confidence).toBe('low')
    expect(reasonOf(assessment, 'conductor-reference-suspect')?.values.fitting).toContain('Bittern')
    expect(actionCodes(assessment)).toContain('check-conductor-code')
  })

  it('that is far above the table gives way to it: the worse ratio governs, provisionally', () => {
    const assessment = judge([resistance({ sideAUohm: 80, sideBUohm: 16, conductorUohm: 80 })])
    expect(assessment).toMatchObject({ class: 'critical', confidence: 'low', governingSide: 'A' })
    expect(assessment.flags).toEqual(expect.arrayContaining(['conductor-reference-suspect', 'provisional']))
    expect(assessment.ratio).toBeCloseTo(80 / 21.8542, 4)
    const [side] = assessment.sides
    expect(side?.reference).toBe('table')
    expect(side?.uConductorUohm).toBeCloseTo(0.06 * 21.8542, 4)
    expect(explain(assessment, { unitSystem: 'metric' }).reasons.join(' '))
      .toContain('Side A reads 1.00 against that conductor reading and 3.66 against the table: the worse one stands, provisionally')
  })

  it('that is far above the table does not hide a side as measured on the barrel alone', () => {
    expect(judge([resistance({ sideAUohm: 75, sideBUohm: 16, conductorUohm: 600 })]).class).toBe('critical')
  })

  it('that is far below the table governs itself, since it is the worse', () => {
    const assessment = judge([resistance({ sideAUohm: 30, sideBUohm: 30, conductorUohm: 13.6 })])
    expect(assessment.sides[0]).toMatchObject({ reference: 'measured', conductorUohm: 13.6 })
  })

  it('is compared at the temperature noted, else at air and 5 K, else at 25 °C', () => {
    const at = (fields: object) => reasonOf(judge([resistance({ conductorUohm: 40, ...fields })]),
      'conductor-reference-suspect')?.values.temperatureC
    expect(at({ conductorTempC: 60 })).toBe(60)
    expect(at({ conductorTempC: undefined, ambientC: 10 })).toBe(15)
    expect(at({ conductorTempC: undefined })).toBe(25)
  })
})

describe('bands around the table', () => {
  it.each([[0.07, 'ok'], [0.071, 'warn'], [0.2, 'warn'], [0.201, 'suspect'], [-0.071, 'warn'], [-0.21, 'suspect'], [-0.51,
    'suspect']] as const)(
    '%f is %s', (deviation, band) => {
      expect(referenceBand(deviation, false, defaultPolicy)).toBe(band)
    },
  )

  it.each([[0.19, 'ok'], [0.3, 'ok'], [0.31, 'suspect'], [-0.1, 'warn']] as const)('live on one layer %f is %s', (deviation, band) => {
    expect(referenceBand(deviation, true, defaultPolicy)).toBe(band)
  })

  it('names the nearest conductors first: 12 µΩ over 305 mm is about 1431 kcmil', () => {
    expect(conductorsThatFit(12, 0.3048, 20, 0.07)).toContain('Bobolink')
    expect(conductorsThatFit(12, 0.167, 20, 0.07)).toContain('Drake')
  })
})

describe('electrode spans', () => {
  it('that differ convert the conductor and add 2 % for each span', () => {
    const [side] = judge([resistance({ conductorUohm: 23.65, conductorSpanM: 0.3353 })]).sides
    expect(side?.conductorUohm).toBeCloseTo((23.65 * 0.3048) / 0.3353, 10)
    const instrumentU = ((0.02 * 23.65 + 1) / Math.sqrt(3)) * (0.3048 / 0.3353)
    expect(side?.uConductorUohm).toBeCloseTo(Math.hypot(instrumentU, 0.02 * Math.SQRT2 * (side?.conductorUohm ?? 0)), 10)
  })

  it('flag it', () => {
    expect(judge([resistance({ conductorUohm: 23.65, conductorSpanM: 0.3353 })]).flags).toEqual(['span-mismatch'])
  })

  it('beyond 25 % give no ratio at all', () => {
    const assessment = judge([resistance({ conductorSpanM: 0.6 })])
    expect(assessment.class).toBe('unknown')
    expect(reasonCodes(assessment)).toContain('span-refused')
  })

  it('12 in and 305 mm are the same span', () => {
    expect(judge([resistance({ conductorSpanM: 0.305 })]).flags).toEqual([])
  })
})

describe('one aluminium layer over steel, read live', () => {
  const penguin = { conductorCode: 'Penguin', barrelOdMm: 25 }
  const live = { testCurrent: 'live-ac', lineCurrentA: 200, conductorUohm: 95 } as const

  it('is judged also against the dc-equivalent reference, and the worse governs', () => {
    const assessment = judge([resistance({ ...live, sideAUohm: 90, sideBUohm: 60 })], penguin)
    const [side] = assessment.sides
    expect(side?.conductorUohm).toBeCloseTo(0.2667e3 * 0.3048, 6)
    expect(side?.reference).toBe('dc-equivalent')
    expect(assessment.class).toBe('watch')
    expect(assessment.flags).toEqual(['single-layer-core'])
    expect(reasonOf(assessment, 'single-layer-core')?.values.ratio).toBeCloseTo(90 / 95, 12)
  })

  it('is not, read dead', () => {
    expect(judge([resistance({ ...live, testCurrent: 'dead-dc', conductorUohm: 82, sideAUohm: 60, sideBUohm: 60 })], penguin).flags)
      .toEqual([])
  })

  it('divides by the core factor where the span is not known', () => {
    const [side] = judge([resistance({ ...live, electrodeSpanM: undefined, sideAUohm: 60, sideBUohm: 60 })], penguin).sides
    expect(side?.conductorUohm).toBeCloseTo(95 / 1.19, 10)
  })

  it('is left alone where the live reading is no higher than dc', () => {
    expect(judge([resistance({ ...live, conductorUohm: 80, sideAUohm: 60, sideBUohm: 60 })], penguin).sides[0]?.reference).toBe('measured')
  })
})
