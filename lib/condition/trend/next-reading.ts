import { YEAR_MS } from '../limits'
import type { Policy } from '../policy'
import type { Edges, MeasuredClass } from '../types'
import { reaches } from './line-fit'
import { singleReadingLine, type Trend } from './trend'

const NEXT_WORSE = { sound: 'watch', watch: 'degraded', degraded: 'urgent', urgent: 'critical' } as const

export interface LastReading {
  class: MeasuredClass
  takenAtMs: number
  k: number
  uLnK: number
  /** Longest interval of this class and kind of reading, years. */
  mostYears: number
}

/**
 * When a series is to be read again, ms since 1970 UTC: a share of the time to the earliest passing of the next worse edge, not sooner and
 * not later than the policy has it for the class. Without growth, the longest interval.
 * @param trend null where the series has a single reading
 */
export function nextReadingDueMs(last: LastReading, trend: Trend | null, edges: Edges, policy: Policy): number {
  const least = Math.min(policy.trend.leastYears[last.class], last.mostYears)
  const years = last.class === 'critical' ? least : Math.min(Math.max(policy.trend.dueShare * yearsToNext(last, last.class, trend, edges, policy), least), last.mostYears)
  return Math.round(last.takenAtMs + years * YEAR_MS)
}

function yearsToNext(
  last: LastReading, from: keyof typeof NEXT_WORSE, trend: Trend | null, edges: Edges, policy: Policy,
): number {
  const next = NEXT_WORSE[from]
  if (trend) {
    const earliest = trend.passings.find(({ class: name }) => name === next)?.earliestAtMs ?? null
    return earliest === null ? Infinity : (earliest - last.takenAtMs) / YEAR_MS
  }
  return reaches(singleReadingLine(last.k, last.uLnK, policy), Math.log(edges[next]), 0)?.earliest ?? Infinity
}
