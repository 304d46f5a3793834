import { normalUpperTail } from './normal'
import type { Policy } from './policy'

/** What is held of x = ln k: mean and standard deviation. */
export interface Belief {
  mean: number
  sd: number
}

/** A sign that is seen `odds` times as often where k is over `overK` as where it is not; 1 says nothing. */
export interface OneSidedSign {
  overK: number
  odds: number
}

export const priorBelief = (policy: Policy): Belief => ({ mean: Math.log(policy.prior.medianK), sd: policy.prior.sdLn })

/** Everything known at once: the mean weighted by 1 / variance. Without items it is the prior itself. */
export function fuse(prior: Belief, items: readonly Belief[]): Belief {
  let weight = 1 / (prior.sd * prior.sd)
  let sum = prior.mean * weight
  for (const item of items) {
    if (item.sd === 0) return item
    const itemWeight = 1 / (item.sd * item.sd)
    weight += itemWeight
    sum += item.mean * itemWeight
  }
  return { mean: sum / weight, sd: Math.sqrt(1 / weight) }
}

/** A reading as it counts `years` later: grown by the drift and less certain. Years before the reading change nothing. */
export function aged(belief: Belief, years: number, ageing: Policy['ageing']): Belief {
  if (!(years > 0)) return belief
  return { mean: belief.mean + ageing.driftPerYear * years, sd: Math.sqrt(belief.sd * belief.sd + ageing.variancePerYear * years) }
}

const normalOver = (belief: Belief, lnK: number): number => {
  if (belief.sd === 0) return belief.mean > lnK ? 1 : 0
  return normalUpperTail((lnK - belief.mean) / belief.sd)
}

/** Probability that k is over a value, with a one-sided sign taken into account by Bayes' rule. */
export function probabilityOver(k: number, belief: Belief, sign: OneSidedSign): number {
  const over = normalOver(belief, Math.log(k))
  if (sign.odds === 1) return over
  const overSign = normalOver(belief, Math.log(sign.overK))
  const total = 1 + (sign.odds - 1) * overSign
  return k >= sign.overK ? (sign.odds * over) / total : (over + (sign.odds - 1) * overSign) / total
}

/** Squared difference of two readings over its variance: chi-square with one degree of freedom if both are right. */
export function disagreement(a: Belief, b: Belief): number {
  const difference = a.mean - b.mean
  const variance = a.sd * a.sd + b.sd * b.sd
  if (variance === 0) return difference === 0 ? 0 : Infinity
  return (difference * difference) / variance
}

/** Two readings that cannot both be right are never averaged: the worse is taken and a repeat is asked for. */
export const inConflict = (a: Belief, b: Belief, policy: Policy): boolean => disagreement(a, b) > policy.conflict.statistic
