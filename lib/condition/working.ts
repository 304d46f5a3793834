import { contextFor } from './context'
import type { Policy } from './policy'
import { renewedFacts } from './renewed'
import { currentSeries } from './series'
import type { Assessment, Evidence, SpliceFacts } from './types'
import { fusionSteps } from './working-fusion'
import { infraredSteps } from './working-infrared'
import { limitSteps } from './working-limit'
import { sideSteps } from './working-side'
import { trendSteps } from './working-trend'

/** A number of a step, with its symbol in the formula. */
export interface WorkingValue {
  symbol: string
  /** In words whose quantities stand in braces, for `localText`. */
  meaning: string
  value: number
  /** As the engine has it: SI, with µΩ, °C and years where the trade uses them; empty where it has none. */
  unit: string
}

/** One line of the sheet: what was put in, by which formula, and what came out. */
export interface WorkingStep {
  title: string
  formula: string
  inputs: WorkingValue[]
  result: WorkingValue
  /** Where the formula or its settings come from. */
  source: string
}

export interface WorkingInput {
  assessment: Assessment
  facts: SpliceFacts
  /** What the assessment was made of. */
  evidence: readonly Evidence[]
  /** The policy it was made under. */
  policy: Policy
  /** The moment for which it was made, ms since 1970 UTC. */
  asOfMs: number
}

/** Formulas, values and sources in the order of the working, so that an engineer can check an assessment by hand. */
export function workingOf({ assessment, facts, evidence, policy, asOfMs }: WorkingInput): WorkingStep[] {
  const context = contextFor(renewedFacts(facts, currentSeries(evidence)), policy)
  return [
    ...assessment.sides.flatMap((side) => sideSteps(side, assessment, policy, asOfMs)),
    ...infraredSteps(assessment, evidence, context),
    ...fusionSteps(assessment, policy, asOfMs),
    ...limitSteps(assessment, context),
    ...(assessment.trends ?? []).flatMap(trendSteps),
  ]
}
