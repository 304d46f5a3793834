import type { ConditionClass } from './types'

/** What a class on show rests on, as far as its age goes. */
export interface Renewal {
  class: ConditionClass
  /** By when it is to be measured again, ms since 1970 UTC; null where nothing dated was read, and of a held class. */
  measureByMs: number | null
  /** Older than twice its interval, or without a date. */
  stale: boolean
}

/**
 * Whether a class rests on evidence that was to be renewed by now, or that has no date: it then says how the splice was, and not how it is. What is
 * worse than watch has a response time of its own, and stays as bad as it was found.
 */
export function isPastReMeasure({ class: shown, measureByMs, stale }: Renewal, nowMs: number): boolean {
  if (shown !== 'sound' && shown !== 'watch') return false
  return measureByMs === null ? stale : measureByMs < nowMs
}
