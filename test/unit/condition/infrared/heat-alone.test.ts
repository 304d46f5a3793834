import { describe, expect, it } from 'vitest'
import { defaultPolicy, explain, showClass } from '@/lib/condition'
import { actionCodes, DAY_MS, infrared, judge, NOW_MS, reasonCodes, resistance } from '../evidence'

/** 22 K hotter than its own conductor, too few pixels for a ratio. ANSI/NETA ATS-2003, Table 100.18 over 15 °C: 'major discrepancy; repair immediately'. */
const hot = (fields = {}) => infrared({ spliceTempC: 64, conductorTempC: 42, distanceM: 200, ...fields })

describe('a splice too hot to wait for its ratio', () => {
  it('is urgent, of low confidence, with its resistance to be read and no figure to carry', () => {
    const found = judge([hot()])
    expect(found).toMatchObject({ class: 'urgent', confidence: 'low' })
    expect(found.ratio).toBeUndefined()
    expect(found.limit).toBeUndefined()
    expect(reasonCodes(found)[0]).toBe('major-heat')
    expect(actionCodes(found)).toEqual(expect.arrayContaining(['call-control-room', 'measure-resistance']))
    const said = explain(found, { unitSystem: 'metric' })
    expect(said.headline).toBe('Urgent: infrared shows it hotter than its conductor and no resistance is measured.')
    expect(said.reasons[0]).toContain('22.0 °C hotter than its own conductor, which the published table calls a major discrepancy')
  })

  // The same table calls 3 to 15 °C over a similar component a probable deficiency; full sun makes 2.4 K of a sound one.
  it('is degraded where the table calls it a probable deficiency, wind or not, with its resistance to be read by a day', () => {
    const warm = (riseK: number, fields = {}) => judge([hot({ spliceTempC: 42 + riseK, ...fields })])
    expect(warm(4.9).class).toBe('unknown')
    for (const found of [warm(14.7), warm(10, { windMS: 6 })]) {
      expect(found).toMatchObject({ class: 'degraded', confidence: 'low' })
      expect(reasonCodes(found)[0]).toBe('probable-heat')
      expect(found.nextActions).toContainEqual({ code: 'measure-resistance', withinDays: defaultPolicy.response.urgentDays })
      expect(explain(found, { unitSystem: 'metric' }).reasons[0]).toContain('which the published table calls a probable deficiency')
    }
    // Two flights: the major heat of the first is not made milder by less of it in the second.
    expect(judge([hot({ takenAtMs: NOW_MS - 40 * DAY_MS }), hot({ spliceTempC: 50, takenAtMs: NOW_MS - DAY_MS })]).class).toBe('urgent')
  })

  it('is degraded in wind over 4 m/s, and nothing in wind over 8 m/s', () => {
    expect(judge([hot({ windMS: 5 })]).class).toBe('degraded')
    expect(judge([hot({ windMS: 9 })]).class).toBe('unknown')
  })

  it('is settled by a later reading of every interface, held as every urgent class, and not by an earlier one', () => {
    const picture = hot({ takenAtMs: NOW_MS - 40 * DAY_MS })
    const good = (daysAgo: number) => resistance({ takenAtMs: NOW_MS - daysAgo * DAY_MS })
    expect(judge([good(90), picture]).class).toBe('urgent')
    const after = judge([picture, good(20)])
    expect(after.class).not.toBe('urgent')
    const shown = showClass(null, judge([picture]), defaultPolicy)
    expect(shown).toMatchObject({ class: 'urgent', held: false, foundAtMs: picture.takenAtMs })
    expect(showClass(shown, after, defaultPolicy)).toMatchObject({ class: 'urgent', held: true, foundAtMs: picture.takenAtMs })
    expect(showClass(shown, judge([picture, good(20), good(10)]), defaultPolicy).held).toBe(false)
  })

  it('never lowers what resistance says', () => {
    expect(judge([resistance({ sideAUohm: 80, takenAtMs: NOW_MS - DAY_MS }), hot()]).class).toBe('critical')
  })
})
