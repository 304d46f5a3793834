import { rankOf } from './classify'
import type { Context } from './context'
import { currentLimit, limitFactsOf, type CurrentLimit } from './current-limit'
import { flowsAgainst, type FlowAgainstLimit } from './limit-lapse'
import type { Belief } from './posterior'
import type { MeasuredClass } from './types'
import { upperK } from './upper-bound'

/** The one figure that operations gets for a splice, and the flows of its circuit against it. */
export interface SpliceLimit extends CurrentLimit {
  flows: FlowAgainstLimit[]
  /** The expected peak passes what this splice may carry: at least urgent. */
  peakPassesIt: boolean
  /** Drawn at the finding that holds the class, of this ratio, and not at the readings since; absent: at the readings. */
  heldRatio?: number
}

/** A splice better than its conductor never limits a section; under this class none is drawn. */
const FROM_CLASS = 'watch'

/**
 * @param beliefs ln k of each side, or of the splice by infrared
 * @param byInfrared the class rests on pictures alone, which show the mean of a splice: its worse side may allow less, so that they may
 *   lower what a section carries and never say that a splice does not
 * @returns undefined where no figure can be drawn: no class, conductor not in the table, no barrel, or a value out of range
 */
export function spliceLimit(measured: MeasuredClass | null, beliefs: readonly Belief[], byInfrared: boolean, context: Context): SpliceLimit | undefined {
  if (measured === null || rankOf(measured) < rankOf(FROM_CLASS) || beliefs.length === 0 || context.interfaces.barrelSides.length === 0) return undefined
  const { facts, policy } = context
  const limitFacts = limitFactsOf(context, facts.voltageKv)
  if (!limitFacts.ok) return undefined
  const limit = currentLimit(limitFacts.value, upperK(beliefs, policy), policy)
  if (!limit.ok) return undefined
  const { use, lineA, mva, spliceLineA, spliceSubconductorA, sectionA, sectionFrom, limitedBy, spliceC, k, weather } = limit.value
  if (byInfrared && limitedBy === 'section') return undefined
  const peakPassesIt = limitedBy === 'splice' && facts.expectedPeakA !== undefined && facts.expectedPeakA > lineA
  // Spelled out, as everything that is made for every splice: a spread here takes longer than the limit.
  return {
    use, lineA, mva, spliceLineA, spliceSubconductorA, sectionA, sectionFrom, limitedBy, spliceC, k, weather, flows: flowsAgainst(lineA, facts),
    peakPassesIt,
  }
}
