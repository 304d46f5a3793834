import type { Policy } from '../policy'
import { fuse, priorBelief, type Belief } from '../posterior'
import type { Assessment, ShownClass } from '../types'
import { upperK } from '../upper-bound'

/** The ratio that a splice is reckoned with at a load, and what it rests on. */
export interface CarriedK {
  /** As believed, and what it is believed to lie under. */
  k: number
  upperK: number
  /** finding: a held finding was worse than what the evidence says now. unread: no usable ratio, so what the policy believes of an unread splice. */
  basis: 'read' | 'finding' | 'unread'
}

type Read = Pick<Assessment, 'class' | 'sides' | 'fusion'>

/**
 * @param assessment as it was stored; null where the splice was never assessed
 * @param shown what is on show: a held class never counts for less than the finding that holds it
 */
export function carriedK(assessment: Read | null, shown: Pick<ShownClass, 'held' | 'foundRatio'>, policy: Policy): CarriedK {
  const beliefs = assessment === null ? [] : beliefsOf(assessment, policy)
  const read = assessment !== null && assessment.class !== 'unknown' && beliefs.length > 0
  // What was read of a splice without a class (one side of two, a side not proved) may make it worse, and never better than an unread one.
  const all = read ? beliefs : [priorBelief(policy), ...beliefs]
  const k = Math.exp(Math.max(...all.map(({ mean }) => mean)))
  const upper = upperK(all, policy)
  const { held, foundRatio } = shown
  if (held && foundRatio !== undefined) return { k: Math.max(k, foundRatio), upperK: Math.max(upper, foundRatio), basis: 'finding' }
  return { k, upperK: upper, basis: read ? 'read' : 'unread' }
}

function beliefsOf({ sides, fusion }: Read, policy: Policy): Belief[] {
  const beliefs = sides.map(({ meanLnK, sdLnK }): Belief => ({ mean: meanLnK, sd: sdLnK }))
  const [only, ...others] = fusion?.sources ?? []
  // Infrared alone speaks for the splice as a whole where resistance does not cover every interface.
  if (only?.source === 'infrared' && others.length === 0) beliefs.push(fuse(priorBelief(policy), [{ mean: Math.log(only.agedK), sd: only.agedULnK }]))
  return beliefs
}
