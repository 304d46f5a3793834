import { classRank, rankOf } from './classify'
import type { ClassClocks } from './clock'
import { HOUR_MS } from './limits'
import type { Policy } from './policy'
import type { Assessment, MeasuredClass, ShownClass, VisitSummary } from './types'

/** A named engineer's word that a finding no longer stands, with the reason. */
export interface EngineerDecision {
  engineer: string
  reason: string
  /** ms since 1970 UTC. It speaks of findings measured before it, not of later ones. */
  decidedAtMs: number
}

type Finding = Pick<ShownClass, 'foundAtMs' | 'foundRatio' | 'foundReadingIds'>

/** What was on show before. `foundAtMs` is when the finding behind it was measured; without it only an engineer clears. */
export interface PreviousShown extends Pick<ShownClass, 'class'>, Finding {
  /** Since when it stood at each class or a worse one. */
  clocks?: ClassClocks
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
  const ownRank = classRank(now)
  if (previous && !isReleased(previous, decision)) {
    for (const held of HELD_CLASSES) {
      if (classRank(previous.class) < rankOf(held) || ownRank >= rankOf(held)) continue
      if (goodReadings(assessment.visits, held, previous.foundAtMs, policy) >= policy.hold.independentReadings) continue
      return { class: held, held: true, ...findingStill(previous, assessment.visits, held) }
    }
  }
  const clearedAtMs = Math.max(previous?.clearedAtMs ?? -Infinity, decision && isNamed(decision) ? decision.decidedAtMs : -Infinity)
  for (const held of HELD_CLASSES) {
    if (ownRank >= rankOf(held)) continue
    const found = newestFinding(assessment.visits, held, clearedAtMs)
    if (!found || goodReadings(assessment.visits, held, found.foundAtMs, policy) >= policy.hold.independentReadings) continue
    return { class: held, held: true, ...found }
  }
  return { class: now, held: false, ...(ownRank >= rankOf('degraded') ? findingOf(assessment) : {}) }
}

function isReleased(previous: PreviousShown, decision: EngineerDecision | null): boolean {
  if (!decision || !isNamed(decision)) return false
  return previous.foundAtMs === undefined || decision.decidedAtMs >= previous.foundAtMs
}

const isNamed = (decision: EngineerDecision): boolean => decision.engineer.trim() !== '' && decision.reason.trim() !== ''

function newestFinding(visits: readonly VisitSummary[], held: MeasuredClass, afterMs: number): Finding | undefined {
  const found = visits.findLast((v) => v.takenAtMs !== undefined && v.takenAtMs > afterMs && v.class !== undefined && rankOf(v.class) >= rankOf(held))
  return found && { foundAtMs: found.takenAtMs, foundRatio: found.ratio, foundReadingIds: found.readingIds }
}

/** What holds a class is the newest visit as bad as it; an undated finding stays, since nothing is known to be later. */
function findingStill(previous: PreviousShown, visits: readonly VisitSummary[], held: MeasuredClass): Finding {
  const { foundAtMs, foundRatio, foundReadingIds } = previous
  const later = foundAtMs === undefined ? undefined : newestFinding(visits, held, foundAtMs)
  return later ?? { foundAtMs, foundRatio, foundReadingIds }
}

/**
 * What a class with a response time rests on: the governing side or, where infrared governs or was the worse of two that contradict each
 * other, the picture; where that alone is milder, the broken strands that were seen.
 */
function findingOf({ class: own, sides, governingSide, lastReadingAtMs, reasons, fusion, flags }: Assessment): Finding {
  const picture = fusion?.taken === 'infrared' || flags.includes('infrared-only') ? fusion?.sources.find(({ source }) => source === 'infrared') : undefined
  if (picture && !reasons.some(({ code }) => code === 'broken-strands')) {
    return { foundAtMs: picture.takenAtMs ?? lastReadingAtMs, foundRatio: picture.k, foundReadingIds: picture.readingIds }
  }
  const governing = sides.find(({ side }) => side === governingSide)
  const strands = reasons.find(({ code }) => code === 'broken-strands')
  if (strands && !(governing && rankOf(governing.class) >= classRank(own))) {
    const { takenAtMs } = strands.values
    return { foundAtMs: typeof takenAtMs === 'number' ? takenAtMs : lastReadingAtMs, foundReadingIds: strands.readingIds }
  }
  const heat = reasons.find(({ code }) => code === 'major-heat' || code === 'probable-heat')
  if (heat && !(governing && rankOf(governing.class) >= classRank(own))) {
    const { takenAtMs } = heat.values
    return { foundAtMs: typeof takenAtMs === 'number' ? takenAtMs : lastReadingAtMs, foundReadingIds: heat.readingIds }
  }
  return { foundAtMs: governing?.takenAtMs ?? lastReadingAtMs, foundRatio: governing?.ratio, foundReadingIds: governing?.readingIds }
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
