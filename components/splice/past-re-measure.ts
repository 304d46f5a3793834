import { isPastReMeasure as isPast } from '@/lib/condition/past-re-measure'
import type { SpliceSummary } from '@/lib/contract/contract'
import { formatMonth } from '@/lib/units/time'

type Of = Pick<SpliceSummary, 'class' | 'measure_by' | 'flags'>

/** Whether its class is of a time that is over: see lib/condition. */
export const isPastReMeasure = ({ class: shown, measure_by: by, flags }: Of, nowMs: number): boolean =>
  isPast({ class: shown, measureByMs: by === null ? null : Date.parse(by), stale: flags.includes('stale') }, nowMs)

/** What nobody may take for sound today. */
export const wasSound = (of: Of, nowMs: number): boolean => of.class === 'sound' && isPastReMeasure(of, nowMs)

/**
 * When what its class rests on was read, ms since 1970 UTC: of a held one the finding, of a sound one the last look that could have shown it
 * failing. A later picture that proves nothing makes nothing younger.
 */
export function readAtMs({ class: shown, held, found_at: foundAt, conclusive_at: conclusiveAt, last_reading_at: lastAt }: Of & Pick<SpliceSummary, 'held' | 'found_at' | 'conclusive_at' | 'last_reading_at'>): number | null {
  const at = held ? (foundAt ?? lastAt) : shown === 'sound' ? (conclusiveAt ?? lastAt) : lastAt
  return at === null ? null : Date.parse(at)
}

/** 'was sound' where it was to be measured again by now, else the class. */
export const classNow = (of: Of, nowMs: number): string => (wasSound(of, nowMs) ? 'was sound' : of.class)

/** 'past re-measure since Jul 2022'; empty where it is not. */
export function pastText(of: Of, timeZone: string, nowMs: number): string {
  if (!isPastReMeasure(of, nowMs)) return ''
  return of.measure_by === null ? 'read on a day nobody noted, measure again' : `past re-measure since ${formatMonth(Date.parse(of.measure_by), timeZone)}`
}
