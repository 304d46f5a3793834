import { describe, expect, it } from 'vitest'
import { defaultPolicy, explain } from '@/lib/condition'
import { carriedK } from '@/lib/condition/loading/carried-k'
import { whyNoLimit } from '@/lib/condition/no-limit'
import { DAY_MS, infrared, judge, NOW_MS, reasonCodes, resistance } from '../evidence'

/** Side A at 35 / 21.5, a ratio of 1.63: degraded by itself. */
const degraded = () => resistance({ sideAUohm: 35 })

describe('the limit of an assessment', () => {
  it('is drawn from watch on, where the conductor is in the table', () => {
    expect(judge([resistance()]).limit).toBeUndefined()
    expect(judge([degraded()], { conductorCode: 'Nobody' }).limit).toBeUndefined()
    expect(judge([degraded()]).limit).toMatchObject({ use: 'for-operations', sectionA: 900, sectionFrom: 'rating', mva: null })
  })

  it('is taken over the middle of what is believed', () => {
    const { limit, sides } = judge([degraded()])
    expect(limit?.k).toBeGreaterThan(sides[0]?.medianK ?? Infinity)
  })

  it('does not rise by a side that fell without a repair', () => {
    const before = resistance({ sideAUohm: 63, sideBUohm: 43, takenAtMs: NOW_MS - 60 * DAY_MS })
    const after = resistance({ sideAUohm: 20, sideBUohm: 60, takenAtMs: NOW_MS })
    const [alone, both] = [judge([before]), judge([before, after])]
    expect(both.flags).toContain('ratio-fell')
    expect(both.limit?.lineA).toBeLessThanOrEqual(alone.limit?.lineA ?? NaN)
    expect(judge([after]).limit?.lineA).toBeGreaterThan(both.limit?.lineA ?? NaN)
  })

  it('is drawn from infrared alone too, with its larger error', () => {
    const { limit, infrared: [note] } = judge([infrared({ spliceTempC: 70 })])
    expect(limit?.limitedBy).toBe('splice')
    expect(limit?.k).toBeGreaterThan(note?.k ?? Infinity)
  })

  it('is not drawn where pictures alone would say that a splice does not limit its section: its worse side may', () => {
    const facts = { ratingA: 500 }
    const pictures = judge([infrared({ spliceTempC: 46, takenAtMs: NOW_MS - 30 * DAY_MS })], facts)
    expect(['watch', 'degraded']).toContain(pictures.class)
    expect(pictures.limit).toBeUndefined()
    expect(whyNoLimit(pictures, { kind: 'full-tension splice', conductorCode: 'Drake' })).toMatch(/^Not known: infrared sees the mean/)
    expect(carriedK(pictures, { held: false }, NOW_MS, defaultPolicy).figure).toBe(false)
    expect(judge([resistance({ sideAUohm: 24 })], facts)).toMatchObject({ class: 'watch', limit: { limitedBy: 'section' } })
  })

  it('under the expected peak makes a splice urgent, and a section that is overloaded by itself does not', () => {
    const free = judge([degraded()], { ratingA: 1200 })
    expect(free).toMatchObject({ class: 'degraded', limit: { limitedBy: 'splice', peakPassesIt: false } })
    const lineA = free.limit?.lineA ?? Number.NaN
    const loaded = judge([degraded()], { ratingA: 1200, expectedPeakA: lineA + 1 })
    expect(loaded).toMatchObject({ class: 'urgent', limit: { peakPassesIt: true } })
    expect(reasonCodes(loaded)).toContain('peak-over-limit')
    expect(judge([degraded()], { ratingA: 1200, expectedPeakA: lineA - 1 }).class).toBe('degraded')
    expect(judge([resistance({ sideAUohm: 24 })], { ratingA: 700, expectedPeakA: 800 })).toMatchObject({ class: 'watch', limit: { limitedBy: 'section' } })
  })

  it('is said with its megavolt-amperes and its bounds', () => {
    const said = explain(judge([degraded()], { ratingA: 1200, voltageKv: 230, postContingencyA: 1190 }), { unitSystem: 'metric' }).reasons.join(' ')
    expect(said).toMatch(/In rating weather it may carry \d+ A per phase \(\d+ MVA\), taken at a ratio of 1\.\d\d.*thermal only/)
    expect(said).toMatch(/After the worst outage elsewhere 1,190 A would flow/)
  })
})
