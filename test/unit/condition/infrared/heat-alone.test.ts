import { describe, expect, it } from 'vitest'
import { defaultPolicy, explain, showClass } from '@/lib/condition'
import { carriedK } from '@/lib/condition/loading/carried-k'
import { heatedJoint } from '@/lib/condition/loading/line-joint'
import { countsBy, statedLimit } from '@/lib/condition/loading/stated-limit'
import { whyNoLimit } from '@/lib/condition/no-limit'
import { actionCodes, DAY_MS, infrared, judge, NOW_MS, reasonCodes, resistance, visual } from '../evidence'

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
    expect(said.headline).toBe('Urgent: infrared of 1 Sep 2026 shows it 22.0 °C hotter than its own conductor and no resistance is measured.')
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

  // A splice that the camera saw at 88 °C at 420 A cannot be 58 °C at 900 A: what its ratio gives is not believed.
  it('speaks instead of a good ratio read before it: in the headline and as the figure, without current or temperature', () => {
    const read = resistance({ sideAUohm: 0.67 * 21.5, sideBUohm: 0.71 * 21.5, takenAtMs: NOW_MS - 90 * DAY_MS })
    const found = judge([read, infrared({ spliceTempC: 88, conductorTempC: 36.8, lineCurrentA: 420, current30minA: 420, distanceM: 200, takenAtMs: NOW_MS - DAY_MS })])
    expect(found).toMatchObject({ class: 'urgent', raisedBy: 'heat' })
    expect([found.ratio, found.governingSide, found.limit]).toEqual([undefined, undefined, undefined])
    expect(explain(found, { unitSystem: 'metric' }).headline).toBe(
      'Urgent: infrared of 31 Aug 2026 shows it 51.2 °C hotter than its own conductor, which its ratio of 0.71, read 3 Jun 2026, does not explain.')
    expect(found.nextActions.slice(0, 2).map(({ code }) => code)).toEqual(['call-control-room', 'measure-resistance'])
    const carried = carriedK(found, { held: false }, NOW_MS, defaultPolicy)
    expect(carried).toMatchObject({ basis: 'contradicted', figure: false })
    const section = { conductorCode: 'Drake', subconductors: 1, ratingA: 900, maxOperatingC: 75, elevationM: null }
    const joint = heatedJoint({ ...carried, kind: 'full-tension splice', fittingType: null, barrelOdMm: 47.6 }, section, defaultPolicy)
    const limits = { class: found.class, figure: carried.figure, rank: null, name: 'hot' }
    expect(countsBy(joint, { class: found.class, basis: carried.basis })).toBe('fails')
    expect(statedLimit([limits], 900)).toMatchObject({ by: null, mayBeLower: [{ name: 'hot' }] })
    expect(whyNoLimit(found, { kind: 'full-tension splice', conductorCode: 'Drake' })).toContain('hotter than its ratio makes it')
  })

  it('leaves a ratio that is as bad in its place, and names the missing ratio where none was read', () => {
    expect(judge([resistance({ sideAUohm: 80, takenAtMs: NOW_MS - DAY_MS }), hot()])).toMatchObject({ ratio: expect.closeTo(80 / 21.5, 3), raisedBy: undefined })
    const unread = judge([hot()])
    expect(whyNoLimit(unread, { kind: 'full-tension splice', conductorCode: 'Drake' })).toContain('no usable ratio has been read')
    expect(judge([hot({ spliceTempC: 52 })]).nextActions[0]).toEqual({ code: 'measure-resistance', withinDays: defaultPolicy.response.urgentDays })
    const strands = judge([resistance(), visual(['broken-strands'])])
    expect(strands).toMatchObject({ class: 'urgent', raisedBy: 'strands' })
    expect(strands.ratio).toBeUndefined()
  })
})
