import { rankOf } from '../classify'
import type { ConditionClass } from '../types'
import { hasRatio, type CarriedK } from './carried-k'
import type { HeatedJoint, NotDrawn } from './line-joint'

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

/** What sections allow together whose loads grow alike: splices of all are ranked by how much of its section's current each allows. */
export function statedTogether<T extends Limits>(sections: readonly { splices: readonly T[]; ceiling: number }[]): Stated<T> {
  const limiting = sections.flatMap(({ splices, ceiling }) => {
    const { by, mayBeLower } = statedLimit(splices, ceiling)
    return by ? [by, ...mayBeLower] : mayBeLower
  })
  return statedLimit(limiting, Infinity)
}

/**
 * How a splice counts for a limit: by what its ratio allows; 'fails' where it is degraded or worse by its heat or its strands and there is no
 * ratio to reckon with, so that it clears nothing; else not at all. A shield-wire splice carries no load.
 */
export function countsBy(drawn: HeatedJoint | NotDrawn, { class: of, basis }: Pick<Limits, 'class'> & Pick<CarriedK, 'basis'>): 'ratio' | 'fails' | null {
  const reckoned = hasRatio({ basis })
  if (typeof drawn !== 'string' && reckoned) return 'ratio'
  const failing = of === 'urgent' || of === 'critical' || (of === 'degraded' && !reckoned)
  return drawn !== 'shield-wire' && failing ? 'fails' : null
}

const worseFirst = (a: Limits, b: Limits): number => rankIn(b) - rankIn(a)
const rankIn = ({ class: of }: Limits): number => (of === 'unknown' ? -1 : rankOf(of))
