import { rankOf } from '../classify'
import type { ConditionClass } from '../types'

/** A splice as it counts for what its section, or its circuit, may carry. */
export interface Limits {
  class: ConditionClass
  /** Whether a current may be given for it. */
  figure: boolean
  /** What it is ranked by, the least first; null: it fails and no ratio says how far. */
  rank: number | null
}

export interface Stated<T> {
  /** The one with a figure that allows the least, under the ceiling; null: none does. */
  by: T | null
  /** Those without a figure that may allow less still, the worst first: of them an engineer is to be asked. */
  mayBeLower: T[]
}

/**
 * What splices allow together. A splice without a figure of its own hides none of the others': what they allow stands, as 'not more than', and
 * beside it which may allow less. Without any figure the ceiling does not stand alone either.
 * @param ceiling what is allowed without splices, ranked alike; Infinity where nobody knows
 */
export function statedLimit<T extends Limits>(splices: readonly T[], ceiling: number): Stated<T> {
  let by: T | null = null
  for (const one of splices) if (one.figure && one.rank !== null && one.rank < (by?.rank ?? ceiling)) by = one
  const least = by?.rank ?? ceiling
  const mayBeLower = splices.filter(({ figure, rank }) => !figure && (rank === null || rank < least))
  return { by, mayBeLower: mayBeLower.sort((a, b) => worseFirst(a, b) || (a.rank ?? 0) - (b.rank ?? 0)) }
}

const worseFirst = (a: Limits, b: Limits): number => rankIn(b) - rankIn(a)
const rankIn = ({ class: of }: Limits): number => (of === 'unknown' ? -1 : rankOf(of))
