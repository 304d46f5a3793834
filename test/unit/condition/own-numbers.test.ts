import { describe, expect, it } from 'vitest'
import { conductorDoubt, defaultPolicy, ownNumbersAt, ownNumbersClass } from '@/lib/condition'
import { DRAKE, infrared, resistance, visual } from './evidence'

const own = (evidence: Parameters<typeof ownNumbersClass>[0], facts?: Parameters<typeof ownNumbersClass>[1]) =>
  ownNumbersClass(evidence, facts, defaultPolicy)

describe('one reading that may be in several places', () => {
  const at = (evidence: Parameters<typeof ownNumbersAt>[0], ...codes: string[]) =>
    ownNumbersAt(evidence, codes.map((conductorCode) => ({ ...DRAKE, conductorCode })), defaultPolicy)

  it('is in doubt where its conductor reading fits none of them', () => {
    expect(at(resistance({ sideAUohm: 80, conductorUohm: 80 }), 'Drake', 'Bittern')).toMatchObject({ class: 'critical', doubt: { conductor: 'Bittern' } })
  })

  it('is not where it fits one', () => {
    expect(at(resistance({ sideAUohm: 30, conductorUohm: 51 }), 'Drake', 'Linnet')).toMatchObject({ class: 'sound', doubt: undefined })
  })

  it('says what its bare numbers say where nobody knows the conductor', () => {
    expect(at(resistance({ sideAUohm: 80 }))).toEqual(own(resistance({ sideAUohm: 80 }), undefined))
  })
})

describe('a conductor reading beside the conductor on record', () => {
  const doubt = (fields: object, code = 'Drake') => conductorDoubt(resistance(fields), { ...DRAKE, conductorCode: code }, defaultPolicy)

  it('is doubted over 20 % off, either way, at the temperature noted', () => {
    expect(doubt({ conductorUohm: 26 })).toBeUndefined()
    expect(doubt({ conductorUohm: 26.3 })).toMatchObject({ conductor: 'Drake', conductorUohm: 26.3 })
    expect(doubt({ conductorUohm: 17.6 })).toBeUndefined()
    expect(doubt({ conductorUohm: 17.4 })).toBeDefined()
    expect(doubt({ conductorUohm: 26.3, conductorTempC: 40 })).toBeUndefined()
  })

  it('is not doubted where the table cannot be asked', () => {
    expect(doubt({ conductorUohm: 80, electrodeSpanM: undefined })).toBeUndefined()
    expect(doubt({ conductorUohm: 80 }, 'Phoenix')).toBeUndefined()
    expect(doubt({ conductorUohm: undefined })).toBeUndefined()
  })

  it('of one aluminium layer, read live, may stand 30 % higher', () => {
    const live = { testCurrent: 'live-ac', lineCurrentA: 200, conductorUohm: 100 }
    expect(doubt(live, 'Penguin')).toBeUndefined()
    expect(doubt({ ...live, testCurrent: 'dead-dc' }, 'Penguin')).toBeDefined()
  })
})

describe('one reading by its own numbers', () => {
  it('is urgent or critical without anybody knowing the splice', () => {
    expect(own(resistance({ sideAUohm: 10, sideBUohm: 53, conductorUohm: 12 })))
      .toMatchObject({ class: 'critical', urgent: true, side: 'B', flags: [] })
    expect(own(resistance({ sideAUohm: 45 }))).toMatchObject({ class: 'urgent', urgent: true, side: 'A' })
    expect(own(resistance({ sideAUohm: 32 }))).toMatchObject({ class: 'degraded', urgent: false })
  })

  it('needs the facts where it has no conductor reading of its own', () => {
    expect(own(resistance({ sideAUohm: 70, conductorUohm: undefined })).class).toBe('unknown')
    expect(own(resistance({ sideAUohm: 70, conductorUohm: undefined }), DRAKE))
      .toMatchObject({ class: 'critical', flags: ['conductor-from-table'], byTable: { conductor: 'Drake', uohm: expect.closeTo(21.8542, 3) } })
    expect(own(resistance({ sideAUohm: 70 }), DRAKE).byTable).toBeUndefined()
  })

  it('stands provisionally against the table where what was written for the conductor cannot be a reading', () => {
    expect(own(resistance({ sideAUohm: 70, conductorUohm: undefined, conductorUnusable: '-5' })).class).toBe('unknown')
    expect(own(resistance({ sideAUohm: 70, conductorUohm: undefined, conductorUnusable: '-5' }), DRAKE))
      .toMatchObject({ class: 'critical', flags: ['conductor-from-table', 'provisional'], byTable: { conductor: 'Drake', typed: '-5' } })
  })

  it('takes the table where its conductor reading is too high to be true, and says so', () => {
    const impossible = resistance({ sideAUohm: 80, conductorUohm: 80 })
    expect(own(impossible)).toMatchObject({ class: 'sound', urgent: false, doubt: undefined })
    const told = own(impossible, DRAKE)
    expect(told).toMatchObject({ class: 'critical', urgent: true, doubt: { conductor: 'Drake', conductorUohm: 80 } })
    expect(told.ratio).toBeCloseTo(80 / 21.8542, 4)
    expect(told.doubt?.expectedUohm).toBeCloseTo(21.8542, 4)
  })

  it('is not silenced by too little current, but flagged', () => {
    const low = resistance({ sideAUohm: 90, testCurrent: 'live-ac', lineCurrentA: 5 })
    expect(own(low)).toMatchObject({ class: 'critical', urgent: true, flags: ['low-test-current'] })
  })

  it('does not age', () => {
    expect(own(resistance({ takenAtMs: 0 })).class).toBe('sound')
  })

  it('follows the edges of a hotter section', () => {
    expect(own(resistance({ sideAUohm: 28 }), { ...DRAKE, maxOperatingC: 100 })).toMatchObject({ class: 'urgent', urgent: true })
  })

  it('is refused where the fitting is not judged by a ratio', () => {
    expect(own(resistance({ sideAUohm: 90 }), { ...DRAKE, kind: 'shield-wire splice' }))
      .toMatchObject({ urgent: false, flags: ['not-assessed-by-ratio'] })
  })

  it('is refused where the numbers cannot be right', () => {
    expect(own(resistance({ sideAUohm: 1, sideBUohm: 1.2 })))
      .toMatchObject({ class: 'unknown', urgent: false, flags: ['implausible'] })
  })

  it('counts broken strands as urgent and nothing else that is seen', () => {
    expect(own(visual(['broken-strands']))).toMatchObject({ class: 'urgent', urgent: true })
    expect(own(visual(['bulging', 'rust-bleed']))).toMatchObject({ class: 'unknown', urgent: false })
  })

  it('judges a conclusive picture by the heat balance where the conductor is known, in too much wind never as urgent', () => {
    expect(own(infrared({ spliceTempC: 70 }), DRAKE)).toMatchObject({ class: 'critical', urgent: true, flags: ['infrared-only', 'infrared-hot'] })
    expect(own(infrared({ spliceTempC: 32 }), DRAKE)).toMatchObject({ class: 'sound', urgent: false, flags: ['infrared-only'] })
    const windy = infrared({ windMS: undefined, lineCurrentA: 1200, current30minA: 1200, conductorTempC: 36, spliceTempC: 60 })
    expect(own(windy, DRAKE)).toMatchObject({ class: 'degraded', urgent: false })
    // Rain takes heat away: what is warm all the same counts.
    expect(own(infrared({ spliceTempC: 50, rain1h: true }), DRAKE)).toMatchObject({ class: 'degraded', urgent: false, flags: ['infrared-hot'] })
    expect(own(infrared({ spliceTempC: 46, rain1h: true }), DRAKE)).toMatchObject({ class: 'unknown', urgent: false, flags: ['infrared-hot'] })
  })

  // 'Major discrepancy; repair immediately' over 15 °C over a similar component: ANSI/NETA ATS-2003, Table 100.18 (verified in a copy).
  it('takes a picture that tells no ratio as urgent where it is over 15 K hotter than its own conductor', () => {
    const hot = (riseK: number, more = {}) => own(infrared({ conductorTempC: 42, spliceTempC: 42 + riseK, ...more }))
    expect(hot(5)).toMatchObject({ class: 'unknown', urgent: false, flags: ['infrared-hot'] })
    expect(hot(15)).toMatchObject({ class: 'degraded', urgent: false, flags: ['infrared-hot'], reasons: [{ code: 'probable-heat' }] })
    expect(hot(15.1)).toMatchObject({ class: 'urgent', urgent: true, flags: ['infrared-hot'], reasons: [{ code: 'major-heat' }] })
    expect(hot(28, { windMS: 5 })).toMatchObject({ class: 'degraded', urgent: false })
    expect(hot(28, { windMS: 9 })).toMatchObject({ class: 'unknown', urgent: false })
  })

  it('never calls for heat over the air or over another fitting: a loaded line is always warm', () => {
    expect(own(infrared({ spliceTempC: 120, conductorTempC: undefined }))).toMatchObject({ class: 'unknown', urgent: false })
    expect(own(infrared({ spliceTempC: 80, conductorTempC: 60, referenceKind: 'same-fitting' }))).toMatchObject({ class: 'unknown', urgent: false })
  })
})
