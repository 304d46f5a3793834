import { rankOf } from './classify'
import { HOUR_MS } from './limits'
import type { Policy } from './policy'
import type { Assessment, ConditionClass, MeasuredClass, ShownClass, VisitSummary } from './types'

/** A named engineer's word that a finding no longer stands, with the reason. */
export interface EngineerDecision {
  engineer: string
  reason: string
  /** ms since 1970 UTC. It speaks of findings measured before it, not of later ones. */
  decidedAtMs: number
}

/** What was on show before. `foundAtMs` is when the finding behind it was measured; without it only an engineer clears. */
export interface PreviousShown extends Pick<ShownClass, 'class' | 'foundAtMs'> {
  /** When an engineer last cleared a finding of this splice: what was measured before is settled. */
  clearedAtMs?: number
}

const HELD_CLASSES = ['critical', 'urgent'] as const

/**
 * The class on show. It rises at once with the evidence. It never falls from urgent or critical by itself, whatever the
 * cause of the new assessment: import, undo, change of policy or recomputation. It falls only when so many independent
 * readings of every side, all later than the finding, are better (policy: two), or a named engineer says why.
 * Two readings are independent when another instrument took them or `hold.apartHours` lie between them; repeats of one
 * visit are one. From critical it may fall to urgent first, where only that is cleared. A finding among the visits holds even
 * if it was never on show: it must not matter whether a bad and a good reading came in one file or in two.
 * @param previous null where nothing was on show
 */
export function showClass(
  previous: PreviousShown | null, assessment: Assessment, policy: Policy, decision: EngineerDecision | null = null,
): ShownClass {
  const now = assessment.class
  const ownRank = now === 'unknown' ? -1 : rankOf(now)
  if (previous && !isReleased(previous, decision)) {
    for (const held of HELD_CLASSES) {
      if (rankOfShown(previous.class) < rankOf(held) || ownRank >= rankOf(held)) continue
      if (goodReadings(assessment.visits, held, previous.foundAtMs, policy) >= policy.hold.independentReadings) continue
      return { class: held, held: true, foundAtMs: previous.foundAtMs }
    }
  }
  const clearedAtMs = Math.max(previous?.clearedAtMs ?? -Infinity, decision && isNamed(decision) ? decision.decidedAtMs : -Infinity)
  for (const held of HELD_CLASSES) {
    if (ownRank >= rankOf(held)) continue
    const foundAtMs = newestFinding(assessment.visits, held, clearedAtMs)
    if (foundAtMs === undefined || goodReadings(assessment.visits, held, foundAtMs, policy) >= policy.hold.independentReadings) continue
    return { class: held, held: true, foundAtMs }
  }
  return { class: now, held: false, foundAtMs: ownRank >= rankOf('urgent') ? foundAt(assessment) : undefined }
}

const rankOfShown = (shown: ConditionClass): number => (shown === 'unknown' ? -1 : rankOf(shown))

function isReleased(previous: PreviousShown, decision: EngineerDecision | null): boolean {
  if (!decision || !isNamed(decision)) return false
  return previous.foundAtMs === undefined || decision.decidedAtMs >= previous.foundAtMs
}

const isNamed = (decision: EngineerDecision): boolean => decision.engineer.trim() !== '' && decision.reason.trim() !== ''

function newestFinding(visits: readonly VisitSummary[], held: MeasuredClass, clearedAtMs: number): number | undefined {
  const found = visits.findLast((v) => v.takenAtMs !== undefined && v.takenAtMs > clearedAtMs && v.class !== undefined && rankOf(v.class) >= rankOf(held))
  return found?.takenAtMs
}

/** When the governing side was read; without a date the newest evidence. */
function foundAt(assessment: Assessment): number | undefined {
  const governing = assessment.sides.find(({ side }) => side === assessment.governingSide)
  return governing?.takenAtMs ?? assessment.lastReadingAtMs
}

/**
 * Independent readings after the finding, counted from the newest back until one is as bad again. Incomplete and unusable
 * visits clear nothing and spoil nothing.
 */
export function goodReadings(visits: readonly VisitSummary[], held: MeasuredClass, foundAtMs: number | undefined, policy: Policy): number {
  if (foundAtMs === undefined) return 0
  const counted: VisitSummary[] = []
  for (let i = visits.length - 1; i >= 0; i--) {
    const visit = visits[i]
    if (visit?.takenAtMs === undefined || visit.takenAtMs <= foundAtMs || visit.class === undefined) continue
    if (rankOf(visit.class) >= rankOf(held)) break
    if (visit.complete && counted.every((other) => areIndependent(visit, other, policy))) counted.push(visit)
  }
  return counted.length
}

function areIndependent(a: VisitSummary, b: VisitSummary, policy: Policy): boolean {
  if (a.instrument !== undefined && b.instrument !== undefined && a.instrument !== b.instrument) return true
  return Math.abs((a.takenAtMs ?? 0) - (b.takenAtMs ?? 0)) >= policy.hold.apartHours * HOUR_MS
}
