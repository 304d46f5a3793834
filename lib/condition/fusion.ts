import type { Policy } from './policy'
import { disagreement, type Belief } from './posterior'

/** k of the whole splice as one conclusive picture shows it: the barrel's mean, whichever interface is the worse. */
export interface InfraredBelief {
  /** ln k on the day of the picture; its spread is never under the policy's least. */
  measured: Belief
  /** The same, aged to the day for which the splice is judged. */
  belief: Belief
  /** In so much wind that it never lifts a class above degraded. */
  windy: boolean
  takenAtMs?: number
  readingIds: (number | string)[]
}

/** One side as resistance has it, aged, with the part of its relative error that both sides share through their conductor reading. */
export interface SideBelief {
  belief: Belief
  uSharedLn: number
}

/** One source on the axis of ratios. */
export interface FusedSource {
  /** 'resistance': the mean of both sides, which is what infrared can be compared with. */
  source: 'resistance' | 'infrared'
  /** As measured, with its standard error of ln k. */
  k: number
  uLnK: number
  /** As it counts today: grown by the usual drift and less certain. */
  agedK: number
  agedULnK: number
  takenAtMs?: number
  readingIds: (number | string)[]
}

/** How infrared and resistance were brought together. */
export interface Fusion {
  sources: FusedSource[]
  /** (a − b)² / (u_a² + u_b²) of the two; absent where there is one or where they cannot be compared. */
  statistic?: number
  /** Over it they cannot both be right. */
  limit: number
  conflict: boolean
  /** Set where readings of every interface after the picture settled that resistance is right. */
  settled?: true
  /** What the class rests on. 'resistance' also where infrared would only have lowered a class. */
  taken: 'both' | 'resistance' | 'infrared'
  /** What is believed of the whole splice where infrared makes the class: the picture as it counts today, with what is known of splices unread. */
  believed?: { meanLnK: number; sdLnK: number }
}

/**
 * ln of the mean of both sides' ratios. Infrared sees this mean: heat runs along a barrel within minutes, and each interface gives its own.
 */
export function meanOfSides(a: SideBelief, b: SideBelief): Belief {
  const kA = Math.exp(a.belief.mean)
  const kB = Math.exp(b.belief.mean)
  const shareA = kA / (kA + kB)
  const shareB = 1 - shareA
  const variance = (shareA * a.belief.sd) ** 2 + (shareB * b.belief.sd) ** 2 + 2 * shareA * shareB * a.uSharedLn * b.uSharedLn
  return { mean: Math.log((kA + kB) / 2), sd: Math.sqrt(variance) }
}

/** Whether two sources can both be right, and which stands if not: the worse, never their average. */
export function compare(resistance: Belief, infrared: Belief, policy: Policy): { statistic: number; conflict: boolean; worse: 'resistance' | 'infrared' } {
  const statistic = disagreement(resistance, infrared)
  return { statistic, conflict: statistic > policy.conflict.statistic, worse: infrared.mean > resistance.mean ? 'infrared' : 'resistance' }
}

/**
 * What infrared says of one side: its mean of the splice, carried to that side by how far the side measured from the mean. Fused with the
 * side it gives what fusing the means and then carrying the result gives.
 */
export const carriedTo = (side: Belief, mean: Belief, infrared: Belief): Belief => ({ mean: infrared.mean + side.mean - mean.mean, sd: infrared.sd })

/**
 * Where one of two interfaces was measured: infrared cannot lie under half of it, because the other gives at least nothing. Null where
 * nothing contradicts; above that half, infrared speaks of the other side and nothing is assumed of it.
 */
export function contradictsOneSide(side: Belief, infrared: Belief, policy: Policy): number | null {
  const half: Belief = { mean: side.mean - Math.LN2, sd: side.sd }
  if (infrared.mean >= half.mean) return null
  const statistic = disagreement(half, infrared)
  return statistic > policy.conflict.statistic ? statistic : null
}
