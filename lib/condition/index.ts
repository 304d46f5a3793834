/** The public face of the condition engine: pure, without a clock, the same on a server, in a browser and in a script. */
export {
  ACTION_CODES, CONDITION_CLASSES, FINDINGS, MEASURED_CLASSES, SPLICE_KINDS,
  type ActionCode, type Assessment, type AssessmentFlag, type ConditionClass, type Confidence, type Edges, type Evidence, type Finding,
  type InfraredEvidence, type InfraredNote, type MeasuredClass, type NextAction, type Policy, type Reason, type ReferenceBasis,
  type ResistanceEvidence, type ShownClass, type SideAssessment, type SpliceFacts, type SpliceKind, type VisitSummary, type VisualEvidence,
} from './types'
export { ENGINE_VERSION } from './version'
export { defaultPolicy, policySchema } from './policy'
export { POLICY_WORDS, type PolicySource, type PolicyWord } from './policy-words'
export { conductorByCode, CONDUCTORS, isSingleLayerAcsr, temperatureFactor, type Conductor } from './conductor-table'
export { conductorDoubt, doubtIn, type ConductorDoubt } from './conductor-doubt'
export { byTableIn, type ByTable } from './by-table'
export { conductorsThatFit, expectedUohm } from './conductor-check'
export { withHeldDuties } from './actions'
export { classRank } from './classify'
export { assess, type AssessmentInput } from './assess'
export { clocksAfter, type ClassClocks } from './clock'
export { goodReadings, showClass, type EngineerDecision, type PreviousShown } from './hold'
export { ownNumbersClass, type OwnNumbers } from './own-numbers'
export { ownNumbersAt } from './own-numbers-at'
export { explain, explainInfrared, type Explanation, type ExplainOptions, type InfraredExplanation } from './explain'
export { CLASS_WORDS, FINDING_WORDS, FLAG_WORDS } from './words'
export type { FusedSource, Fusion } from './fusion'
export type { SpliceLimit } from './splice-limit'
export { trendAt, type Passing, type Trend, type TrendSeries } from './trend/trend'
export { workingOf, type WorkingInput, type WorkingStep, type WorkingValue } from './working'
export { surfacesOf, type Surface, type Surfaces } from './surface'
export { trueTemperatureC, type CameraReading, type RadiometryRefusal, type TrueSurface } from './radiometry/correct'
export { greatestDistanceM, partlyFilledC, pixelsOver } from './radiometry/spot'
