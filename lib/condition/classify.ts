import { probabilityOver, type Belief, type OneSidedSign } from './posterior'
import type { Policy } from './policy'
import type { ConditionClass, Confidence, Edges, MeasuredClass, SideAssessment } from './types'

export type Chances = SideAssessment['pOver']

const RANK: Record<MeasuredClass, number> = { sound: 0, watch: 1, degraded: 2, urgent: 3, critical: 4 }

/** 0 for sound … 4 for critical. */
export const rankOf = (measured: MeasuredClass): number => RANK[measured]

/** Worst highest, 4 for critical; -1 for unknown, which is neither good nor bad. For sorting, as `class_rank` in the database does. */
export const classRank = (condition: ConditionClass): number => (condition === 'unknown' ? -1 : RANK[condition])

export const worseOf = (a: MeasuredClass, b: MeasuredClass): MeasuredClass => (RANK[a] >= RANK[b] ? a : b)

export const chancesOf = (belief: Belief, edges: Edges, sign: OneSidedSign): Chances => ({
  watch: probabilityOver(edges.watch, belief, sign),
  degraded: probabilityOver(edges.degraded, belief, sign),
  urgent: probabilityOver(edges.urgent, belief, sign),
  critical: probabilityOver(edges.critical, belief, sign),
})

/** The worst class whose rule holds: more than the limit for watch and degraded, the limit itself for urgent and critical. */
export function classFrom(chances: Chances, rules: Policy['pRules']): MeasuredClass {
  if (chances.critical >= rules.critical) return 'critical'
  if (chances.urgent >= rules.urgent) return 'urgent'
  if (chances.degraded > rules.degraded) return 'degraded'
  return chances.watch > rules.watch ? 'watch' : 'sound'
}

/** How the believed probability parts among the classes; sums to 1. */
export const sharesFrom = (chances: Chances): Record<MeasuredClass, number> => ({
  sound: 1 - chances.watch,
  watch: chances.watch - chances.degraded,
  degraded: chances.degraded - chances.urgent,
  urgent: chances.urgent - chances.critical,
  critical: chances.critical,
})

/** How sure the class is: the probability over its lower edge, for sound that of lying under the watch edge. */
export function confidenceFrom(measured: MeasuredClass, chances: Chances, limits: Policy['confidence']): Confidence {
  const chance = measured === 'sound' ? 1 - chances.watch : chances[measured]
  if (chance >= limits.high) return 'high'
  return chance >= limits.medium ? 'medium' : 'low'
}
