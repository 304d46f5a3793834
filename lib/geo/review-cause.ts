import type { PlacementCandidate, PlacementReason, PlacementReasonCode } from './types'

/** Why a reading waits for a person, in one word. */
export type ReviewCause =
  | 'names-contradict' | 'no-position' | 'nothing-in-reach' | 'contradicts' | 'not-on-file' | 'one-pass' | 'several-circuits' | 'off-the-line' | 'phase-missing'
  | 'several-splices'

interface Rule {
  cause: ReviewCause
  /** In a list, beside the name of the reading. */
  phrase: string
  codes: readonly PlacementReasonCode[]
  /** Counts only where the second candidate is on another circuit and likelier than that no line is meant. */
  needsRival?: true
}

/**
 * The one place where it is said which of several reasons governs, the first rule that fits: names that contradict each other
 * are to be put right first, without a position nothing else can be judged, what contradicts comes before what is merely not sure, the circuit before the phase, and the phase before the splice.
 */
export const REVIEW_RULES: readonly Rule[] = [
  { cause: 'names-contradict', phrase: 'Its names contradict each other', codes: ['declared-contradicts-declared'] },
  { cause: 'no-position', phrase: 'No position', codes: ['no-position', 'position-zero'] },
  { cause: 'nothing-in-reach', phrase: 'Nothing within reach', codes: ['nothing-in-reach'] },
  { cause: 'contradicts', phrase: 'Contradicts its position', codes: ['declared-contradicts-position'] },
  { cause: 'not-on-file', phrase: 'Names what is not on file', codes: ['declared-unknown'] },
  { cause: 'one-pass', phrase: 'One pass, perhaps two splices', codes: ['same-pass-different-label'] },
  { cause: 'several-circuits', phrase: 'Parallel circuit possible', codes: ['shared-structures-no-offset'] },
  { cause: 'several-circuits', phrase: 'Parallel circuit possible', codes: ['low-probability'], needsRival: true },
  { cause: 'off-the-line', phrase: 'Too far off the line', codes: ['low-probability'] },
  { cause: 'phase-missing', phrase: 'Phase missing', codes: ['phase-missing'] },
  { cause: 'several-splices', phrase: 'Several splices in reach', codes: ['two-splices-in-reach'] },
]

/**
 * Whether a candidate's probability is a finding that is worth telling. Without a position it is none: what the reading names is shared out
 * evenly over all that bear it, and says nothing of where along them it was. Everywhere else it is that of the candidate's circuit.
 */
export const isSureTold = (cause: ReviewCause | null): boolean => cause !== 'no-position' && cause !== 'names-contradict'

/** The cause in one short phrase. */
export const reviewCauseText = (cause: ReviewCause): string => REVIEW_RULES.find((rule) => rule.cause === cause)?.phrase ?? cause

/** Why a reading with these reasons and candidates waits; undefined where nothing of it asks for a person. Candidates: likeliest first. */
export function reviewCause(
  reasons: readonly Pick<PlacementReason, 'code'>[], candidates: readonly Pick<PlacementCandidate, 'circuitId' | 'probability'>[],
): ReviewCause | undefined {
  return REVIEW_RULES.find(({ codes, needsRival }) => reasons.some(({ code }) => codes.includes(code)) && (!needsRival || hasRival(candidates)))?.cause
}

/** The reason that governs, of those that a reading waits for; the first where none does. */
export function governingReason<R extends Pick<PlacementReason, 'code'>>(
  reasons: readonly R[], candidates: readonly Pick<PlacementCandidate, 'circuitId' | 'probability'>[],
): R | undefined {
  const cause = reviewCause(reasons, candidates)
  const codes = REVIEW_RULES.filter((rule) => rule.cause === cause).flatMap((rule) => rule.codes)
  return reasons.find(({ code }) => codes.includes(code)) ?? reasons[0]
}

function hasRival([best, next]: readonly Pick<PlacementCandidate, 'circuitId' | 'probability'>[]): boolean {
  return best !== undefined && next !== undefined && next.circuitId !== best.circuitId
    && next.probability > 1 - best.probability - next.probability
}
