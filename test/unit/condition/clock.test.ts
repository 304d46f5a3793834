import { describe, expect, it } from 'vitest'
import { clocksAfter, type ClassClocks, type ConditionClass } from '@/lib/condition'
import { DAY_MS, NOW_MS } from './evidence'

const nothing = { reasons: [] }
const repaired = (day: number) => ({ reasons: [{ code: 'since-repair', values: { fromMs: NOW_MS + day * DAY_MS } }] })

/** Classes as they are shown day after day, from nothing. */
function clocks(days: Partial<Record<number, ConditionClass>>, assessment: Parameters<typeof clocksAfter>[3] = nothing): ClassClocks {
  let before: { class: ConditionClass; clocks: ClassClocks } | null = null
  for (const [day, shown] of Object.entries(days)) {
    if (shown) before = { class: shown, clocks: clocksAfter(before, shown, NOW_MS + Number(day) * DAY_MS, assessment) }
  }
  return Object.fromEntries(Object.entries(before?.clocks ?? {}).map(([one, ms]) => [one, (ms - NOW_MS) / DAY_MS]))
}

describe('the response clock of a class', () => {
  it('runs from when it was first shown, however often it is assessed again', () => {
    expect(clocks({ 0: 'critical' })).toEqual({ degraded: 0, urgent: 0, critical: 0 })
    expect(clocks({ 0: 'critical', 1: 'critical', 400: 'critical' })).toMatchObject({ critical: 0 })
  })

  it('starts for the worse class when it rises, and goes on from its own start when it falls back', () => {
    expect(clocks({ 0: 'degraded', 5: 'urgent', 9: 'critical' })).toEqual({ degraded: 0, urgent: 5, critical: 9 })
    expect(clocks({ 0: 'degraded', 5: 'urgent', 9: 'critical', 12: 'urgent' })).toEqual({ degraded: 0, urgent: 5 })
  })

  it('ends below the class, and starts anew when it comes back', () => {
    expect(clocks({ 0: 'degraded', 5: 'watch' })).toEqual({})
    expect(clocks({ 0: 'degraded', 5: 'watch', 8: 'degraded' })).toEqual({ degraded: 8 })
  })

  it('is not stopped by evidence that says nothing', () => {
    expect(clocks({ 0: 'degraded', 5: 'unknown', 8: 'degraded' })).toEqual({ degraded: 0 })
  })

  it('starts anew for a milder class after a repair, and not for one that did not fall', () => {
    expect(clocks({ 0: 'critical', 30: 'degraded' }, repaired(20))).toEqual({ degraded: 30 })
    expect(clocks({ 0: 'critical', 30: 'critical' }, repaired(20))).toMatchObject({ critical: 0 })
    expect(clocks({ 0: 'degraded', 5: 'urgent', 9: 'degraded' }, repaired(-20))).toEqual({ degraded: 0 })
  })
})
