import { describe, expect, it } from 'vitest'
import { infrared, judge, NOW_MS, resistance, visual, YEAR_MS } from './evidence'

const BEFORE_MS = NOW_MS - YEAR_MS
const at = (...evidence: Parameters<typeof judge>[0]) => judge(evidence).conclusiveAtMs

/** No heat balance can be drawn: the fixed rules of load stand. */
const NO_TABLE = { conductorCode: undefined }

// Fixed rules for a survey that proves nothing: common practice, no published source.
describe('when a look could last have shown a failing splice', () => {
  it('is the day on which every interface was read', () => {
    expect(at(resistance({ takenAtMs: BEFORE_MS }))).toBe(BEFORE_MS)
    expect(at(resistance({ takenAtMs: BEFORE_MS }), resistance())).toBe(NOW_MS)
  })

  it('is not the day on which one side was read, which leaves the earlier one standing', () => {
    expect(at(resistance({ sideBUohm: undefined }))).toBeUndefined()
    expect(at(resistance({ takenAtMs: BEFORE_MS }), resistance({ sideBUohm: undefined }))).toBe(BEFORE_MS)
  })

  it('is the older of two days that read one side each', () => {
    expect(at(resistance({ takenAtMs: BEFORE_MS, sideBUohm: undefined }), resistance({ sideAUohm: undefined }))).toBe(BEFORE_MS)
  })

  it('is never an undated reading, a look by eye, or both electrodes on the barrel', () => {
    expect(at(resistance({ takenAtMs: undefined }))).toBeUndefined()
    expect(at(visual(['none']))).toBeUndefined()
    expect(at(resistance({ sideAUohm: 8, sideBUohm: 8 }))).toBeUndefined()
  })

  it('is by every interface where those were read, whatever a picture shows after it', () => {
    expect(judge([resistance({ takenAtMs: BEFORE_MS }), infrared()])).toMatchObject({ conclusiveAtMs: NOW_MS, everyInterfaceAtMs: BEFORE_MS })
    expect(judge([infrared()], NO_TABLE).everyInterfaceAtMs).toBeUndefined()
  })

  it('is an infrared picture at enough load in little wind, and no other', () => {
    const byRules = (fields: Parameters<typeof infrared>[0]) => judge([infrared(fields)], NO_TABLE).conclusiveAtMs
    expect(byRules({})).toBe(NOW_MS)
    expect(byRules({ lineCurrentA: 360, current30minA: 360, windMS: 4 })).toBe(NOW_MS)
    for (const fields of [
      { lineCurrentA: 359, current30minA: 359 }, { lineCurrentA: undefined, current30minA: undefined }, { windMS: 4.1 }, { rain1h: true },
      { spliceTempC: undefined },
    ]) expect(byRules(fields)).toBeUndefined()
  })

  it('is a picture in which a splice of twice the resistance would have stood out, whatever share of the rating flowed', () => {
    expect(judge([infrared()], { ratingA: undefined }).conclusiveAtMs).toBe(NOW_MS)
    expect(judge([infrared()], { ratingA: 2000 }).conclusiveAtMs).toBe(NOW_MS)
    expect(at(infrared({ lineCurrentA: 200, current30minA: 200, conductorTempC: 22.2, spliceTempC: 22 }))).toBeUndefined()
  })

  it('is not a picture on a section without a rating: nobody knows what share of it flowed', () => {
    const found = judge([infrared()], { ...NO_TABLE, ratingA: undefined })
    expect(found.conclusiveAtMs).toBeUndefined()
    expect(found.infrared[0]?.inconclusive).toContain('rating-missing')
  })

  it('is not a picture that shows heat all the same: that is a defect, and no proof of the rest', () => {
    const hot = judge([infrared({ spliceTempC: 50, lineCurrentA: 100, current30minA: 100 })])
    expect(hot.infrared[0]?.hot).toBe(true)
    expect(hot.conclusiveAtMs).toBeUndefined()
  })

  it('starts anew with a repair', () => {
    expect(at(resistance({ takenAtMs: BEFORE_MS }), resistance({ afterRepair: true, sideBUohm: undefined }))).toBeUndefined()
  })

  it('needs all legs of a tap, which one reading cannot carry, and is nothing on a shield wire', () => {
    expect(judge([resistance()], { kind: 't-tap' }).conclusiveAtMs).toBeUndefined()
    expect(judge([infrared()], { kind: 'shield-wire splice' }).conclusiveAtMs).toBeUndefined()
    expect(judge([infrared()], { fittingType: 'automatic' }).conclusiveAtMs).toBe(NOW_MS)
  })
})
