import type { Policy } from '../policy'
import { fuse, priorBelief, type Belief } from '../posterior'
import { restsOnPictures } from '../rests-on-pictures'
import type { Assessment } from '../types'
import { upperK } from '../upper-bound'
import { anyAtLeast } from '../within-crimp'
import { heldBelief, type HeldFinding } from './held-finding-k'

/** The ratio that a splice is reckoned with at a load, and what it rests on. */
export interface CarriedK {
  /** As believed, and what it is believed to lie under. */
  k: number
  upperK: number
  /**
   * finding: a held finding was worse than what the evidence says now. unread: no usable ratio, so what the policy believes of
   * an unread splice. contradicted: heat or strands show more than the ratio that was read, which says nothing then. */
  basis: 'read' | 'finding' | 'unread' | 'contradicted'
  /** Whether a current may be given for it: not unread, not contradicted, and not held by a finding that its own figure for operations does not count. */
  figure: boolean
}

/** Whether there is a ratio to reckon with. */
export const hasRatio = ({ basis }: Pick<CarriedK, 'basis'>): boolean => basis === 'read' || basis === 'finding'

/** Where the class is held and no figure of the splice counts its finding: then neither current nor temperature is given of it anywhere. */
export const isWithheld = ({ held, figure }: { held: boolean; figure: boolean }): boolean => held && !figure

/** `limitK`: the ratio that the splice's own figure for operations was drawn at, where one was. */
export interface Read extends Pick<Assessment, 'class' | 'sides' | 'fusion' | 'raisedBy'>, Partial<Pick<Assessment, 'visits'>> {
  limitK?: number
}

/**
 * @param assessment as it was stored; null where the splice was never assessed
 * @param shown what is on show: a held class never counts for less than the finding that holds it
 * @param asOfMs the day on which that finding counts
 */
export function carriedK(assessment: Read | null, shown: HeldFinding, asOfMs: number, policy: Policy): CarriedK {
  const beliefs = assessment === null ? [] : beliefsOf(assessment, policy)
  const contradicted = assessment?.raisedBy !== undefined && beliefs.length > 0
  // Of a ratio that is only 'at least' nobody knows what it lies under.
  const bounded = assessment !== null && !anyAtLeast(assessment.sides)
  const read = assessment !== null && assessment.class !== 'unknown' && beliefs.length > 0 && !contradicted && bounded
  // What was read of a splice without a class (one side of two, a side not proved) may make it worse, and never better than an unread one.
  const all = read ? beliefs : [priorBelief(policy), ...beliefs]
  const k = Math.exp(Math.max(...all.map(({ mean }) => mean)))
  const upper = Math.max(upperK(all, policy), assessment?.limitK ?? 0)
  const finding = heldBelief(shown, assessment?.visits ?? [], asOfMs, policy)
  if (!finding) return { k, upperK: upper, basis: read ? 'read' : contradicted ? 'contradicted' : 'unread', figure: read && (assessment.limitK !== undefined || !shown.held && !unboundedByPictures(assessment)) }
  const foundK = Math.exp(finding.mean)
  // Where the splice has a figure that counts the finding already, that one stands everywhere.
  const counted = assessment?.limitK !== undefined && assessment.limitK >= foundK
  // The worse of the finding and of all that was read since: no later reading allows more until the finding is cleared.
  const worse = counted ? upper : Math.max(upper, upperK([finding], policy))
  return { k: Math.max(k, foundK), upperK: worse, basis: 'finding', figure: counted || standsByResistance(shown, assessment?.visits ?? []) }
}

/** Whether the finding was measured on a side, not as 'at least', and its reading stands still. A picture shows the mean of a splice, and of one withdrawn nothing is left to reckon from. */
function standsByResistance({ foundAtMs, foundRatio }: HeldFinding, visits: NonNullable<Read['visits']>): boolean {
  return visits.some(({ takenAtMs, source, sides }) => takenAtMs !== undefined && takenAtMs === foundAtMs && source !== 'infrared' && sides.some(({ ratio, atLeast }) => ratio === foundRatio && !atLeast))
}

/** Pictures show the mean of a splice: where they are no proof of health, they do not say that its worse side limits nothing. */
const unboundedByPictures = (read: Read): boolean => read.class !== 'sound' && restsOnPictures(read)

function beliefsOf({ sides, fusion }: Read, policy: Policy): Belief[] {
  const beliefs = sides.map(({ meanLnK, sdLnK }): Belief => ({ mean: meanLnK, sd: sdLnK }))
  const [only] = fusion?.sources ?? []
  if (only && restsOnPictures({ fusion })) beliefs.push(fuse(priorBelief(policy), [{ mean: Math.log(only.agedK), sd: only.agedULnK }]))
  return beliefs
}
