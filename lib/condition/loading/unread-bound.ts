import { HEAT_RANGES } from '../heat/ranges'
import { hasRatio, type CarriedK } from './carried-k'

/** The share of read splices under the bound of an unread one; few were read: the worst of them. */
export const UNREAD_SHARE = 0.95

/**
 * What the unread splices of one circuit are taken to lie under: the worse of what the policy believes of an unread splice and what nearly all read
 * ones of the same circuit lie under. They are of one age, one crew and one make more often than not.
 */
export function withUnreadBound<T extends Pick<CarriedK, 'upperK' | 'basis'>>(ofCircuit: readonly T[]): T[] {
  const read = ofCircuit.flatMap((one) => (hasRatio(one) ? [one.upperK] : [])).sort((a, b) => a - b)
  // One read over what a heat balance takes leaves itself out, and no other with it.
  const boundK = Math.min(HEAT_RANGES.k[1], read[Math.max(0, Math.ceil(UNREAD_SHARE * read.length) - 1)] ?? 0)
  return ofCircuit.map((one) => (!hasRatio(one) && one.upperK < boundK ? { ...one, upperK: boundK } : one))
}
