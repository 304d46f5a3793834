import { YEAR_MS } from '../limits'
import type { Policy } from '../policy'
import { aged, type Belief } from '../posterior'
import type { ShownClass, VisitSummary } from '../types'
import { instrumentUncertainty } from '../uncertainty'

export type HeldFinding = Pick<ShownClass, 'held' | 'foundRatio' | 'foundAtMs'>

/** What one foot of a usual conductor reads, µΩ: the instrument's fixed error counts against it (Drake at 25 °C: 22). */
const USUAL_CONDUCTOR_UOHM = 20

/** Standard error of ln k of a ratio that was read with an instrument as the policy knows it, on a usual conductor. */
export function usualErrorLnK(ratio: number, { instrument }: Policy): number {
  const shareOf = (uohm: number) => instrumentUncertainty(uohm, instrument) / uohm
  return Math.hypot(shareOf(USUAL_CONDUCTOR_UOHM), shareOf(ratio * USUAL_CONDUCTOR_UOHM))
}

/**
 * ln k of a finding that holds a class, as it counts today: with its own error where its reading is still there, at least with the usual one, and
 * aged like any other reading. No milder belief is mixed in, so it never allows more than the same ratio read and not contradicted.
 * @returns null where nothing is held, or the finding has no ratio
 */
export function heldBelief(shown: HeldFinding, visits: readonly VisitSummary[], asOfMs: number, policy: Policy): Belief | null {
  const { held, foundRatio, foundAtMs } = shown
  if (!held || foundRatio === undefined || !(foundRatio > 0)) return null
  const visit = foundAtMs === undefined ? undefined : visits.find(({ takenAtMs }) => takenAtMs === foundAtMs)
  const own = (visit?.sides ?? []).filter(({ ratio }) => ratio === foundRatio).map(({ ratio, uRatio }) => uRatio / ratio)
  const infrared = visit?.source === 'infrared' ? [policy.radiometry.leastULnK] : []
  const belief = { mean: Math.log(foundRatio), sd: Math.max(usualErrorLnK(foundRatio, policy), ...own, ...infrared) }
  return foundAtMs === undefined ? belief : aged(belief, (asOfMs - foundAtMs) / YEAR_MS, policy.ageing)
}
