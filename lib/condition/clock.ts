import { classRank } from './classify'
import type { Assessment, ConditionClass } from './types'

const CLOCKED = ['degraded', 'urgent', 'critical'] as const

/** Since when a splice has been shown at each class or a worse one without a break, ms since 1970 UTC. */
export type ClassClocks = Partial<Record<(typeof CLOCKED)[number], number>>

/**
 * The response clock of each class. It starts when the class is first shown to people, not when the reading was taken: nobody can
 * answer a finding that still lies in a crew's file. From then on no reassessment, import, undo or change of policy moves it; a rise
 * starts the clock of the worse class, and back from there the milder one goes on from its own start. Evidence that says nothing stops
 * no clock. After a repair a milder class is a new finding and starts anew.
 * @param atMs when `shown` is shown, ms since 1970 UTC
 */
export function clocksAfter(
  previous: { class: ConditionClass; clocks?: ClassClocks } | null, shown: ConditionClass, atMs: number, assessment: Pick<Assessment, 'reasons'>,
): ClassClocks {
  const before = previous?.clocks ?? {}
  if (shown === 'unknown') return before
  const fell = previous !== null && classRank(shown) < classRank(previous.class)
  const repairedAtMs = assessment.reasons.find(({ code }) => code === 'since-repair')?.values.fromMs
  const startMs = (sinceMs: number | undefined): number =>
    sinceMs === undefined || (fell && typeof repairedAtMs === 'number' && sinceMs < repairedAtMs) ? atMs : sinceMs
  return Object.fromEntries(CLOCKED.filter((one) => classRank(one) <= classRank(shown)).map((one) => [one, startMs(before[one])]))
}
