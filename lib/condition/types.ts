import type { Policy } from './policy'

/** Worst last. `unknown` stands beside the order: it is never sound and never worse than anything. */
export const MEASURED_CLASSES = ['sound', 'watch', 'degraded', 'urgent', 'critical'] as const
export type MeasuredClass = (typeof MEASURED_CLASSES)[number]
export type ConditionClass = MeasuredClass | 'unknown'
export const CONDITION_CLASSES = [...MEASURED_CLASSES, 'unknown'] as const

export const SPLICE_KINDS = [
  'full-tension splice', 'jumper splice', 'repair sleeve', 'dead-end', 't-tap', 'bolted pad',
  'parallel-groove', 'wedge', 'shield-wire splice', 'other',
] as const
export type SpliceKind = (typeof SPLICE_KINDS)[number]

export const FINDINGS = [
  'none', 'discolouration', 'bulging', 'cracks', 'strands-lifted', 'bent-barrel', 'rust-bleed', 'broken-strands',
  'slip', 'bow', 'bird-caging', 'gap', 'radiograph',
] as const
export type Finding = (typeof FINDINGS)[number]

/** What is known of the fitting and of the section it sits on. Absent means not known. */
export interface SpliceFacts {
  kind: SpliceKind
  fittingType?: string
  barrelOdMm?: number
  barrelLengthMm?: number
  conductorCode?: string
  subconductors: number
  /** Per phase. */
  ratingA?: number
  maxOperatingC?: number
}

interface EvidenceBase {
  /** The reading's id in the store, or any label that the caller can follow back. */
  readingId: number | string
  /** Milliseconds since 1970 UTC. Absent: not known, and the evidence counts as stale. */
  takenAtMs?: number
  survey?: string
  instrument?: string
  afterRepair: boolean
}

/** Micro-ohms over the electrode span (DOMAIN: valid 0.5 … 50,000 µΩ). Side A faces the structure of the lower line distance. */
export interface ResistanceEvidence extends EvidenceBase {
  source: 'resistance'
  sideAUohm?: number
  sideBUohm?: number
  conductorUohm?: number
  conductorBUohm?: number
  /** 0.05 … 1.0 m. */
  electrodeSpanM?: number
  conductorSpanM?: number
  /** Barrel electrode's distance from the barrel's mouth. */
  barrelElectrodeM?: number
  repeatNo?: number
  testCurrent?: 'live-ac' | 'dead-dc'
  /** Per phase. */
  lineCurrentA?: number
  conductorTempC?: number
  ambientC?: number
  /** False where nobody said which structure a side faces: breaks the side trend, not the class. */
  sidesDeclared: boolean
}

export interface InfraredEvidence extends EvidenceBase {
  source: 'infrared'
  spliceTempC?: number
  conductorTempC?: number
  referenceKind?: 'own-conductor' | 'same-fitting' | 'air'
  ambientC?: number
  windMS?: number
  sun?: 'none' | 'diffuse' | 'direct'
  rain1h?: boolean
  /** Per phase. */
  lineCurrentA?: number
  current30minA?: number
  emissivity?: number
  reflectedC?: number
  distanceM?: number
  viewAngleDeg?: number
  ifovMrad?: number
  band?: 'lw' | 'mw'
}

export interface VisualEvidence extends EvidenceBase {
  source: 'visual'
  findings: Finding[]
}

export type Evidence = ResistanceEvidence | InfraredEvidence | VisualEvidence

export type Confidence = 'high' | 'medium' | 'low'

/** Flags that cap confidence or ask for something; the sentence for each comes from `explain`. */
export type AssessmentFlag =
  | 'partial' | 'provisional' | 'stale' | 'conflict' | 'span-mismatch' | 'conductor-from-table' | 'conductor-reference-warn'
  | 'conductor-reference-suspect' | 'conductor-references-differ' | 'single-layer-core' | 'sides-undeclared' | 'asymmetry'
  | 'interface-not-proved' | 'edges-computed' | 'edges-default-above-75' | 'low-test-current' | 'ac-dc-mixed'
  | 'not-assessed-by-ratio' | 'infrared-inconclusive' | 'infrared-hot' | 'mechanical-finding' | 'held' | 'span-unknown'
  | 'ratio-fell' | 'implausible'

/** A reason is data; `explain` turns it into a sentence in the user's units. */
export interface Reason {
  code: string
  /** Numbers and words the sentence needs; units in the names. */
  values: Record<string, number | string | boolean | null>
  /** Which readings it rests on. */
  readingIds?: (number | string)[]
}

/** The class edges in force for one splice, with where they came from. */
export interface Edges {
  watch: number
  degraded: number
  urgent: number
  critical: number
  basis: 'policy' | 'computed' | 'section'
}

/** One interface (side) as measured and as believed. */
export interface SideAssessment {
  side: 'A' | 'B'
  /** Measured side / conductor ratio, mean of the repeats; dimensionless. */
  ratio: number
  sideUohm: number
  conductorUohm: number
  uSideUohm: number
  uConductorUohm: number
  uRatio: number
  /** ln k after the prior and ageing: mean and standard deviation. */
  meanLnK: number
  sdLnK: number
  /** Believed median exp(meanLnK). */
  medianK: number
  /** Believed probability that k exceeds each edge. */
  pOver: { watch: number; degraded: number; urgent: number; critical: number }
  /** Likelihood only (DOMAIN 1.5), for the working. */
  pOverMeasured: { watch: number; degraded: number; urgent: number; critical: number }
  class: MeasuredClass
  flags: AssessmentFlag[]
  readingIds: (number | string)[]
  takenAtMs?: number
}

export interface Assessment {
  engineVersion: string
  policyVersion: number
  /** What the evidence says by itself. */
  class: ConditionClass
  confidence: Confidence
  /** Median k of the governing side; absent when unknown. */
  ratio?: number
  governingSide?: 'A' | 'B'
  sides: SideAssessment[]
  /** max / min of the measured side ratios. */
  asymmetry?: number
  edges: Edges
  /** Probability of each class for the governing side (sums to 1), or from the prior where nothing was measured. */
  shares: Record<MeasuredClass, number>
  flags: AssessmentFlag[]
  reasons: Reason[]
  /** What to do next, by code; the response time comes from policy. */
  nextActions: { code: string; withinHours?: number; withinDays?: number }[]
  mechanicalFindings: Finding[]
  infrared: InfraredNote[]
  lastReadingAtMs?: number
  readingCount: number
}

/** Infrared here is shown with its difference and the published criteria as a secondary note. */
export interface InfraredNote {
  readingId: number | string
  takenAtMs?: number
  spliceTempC?: number
  overConductorK?: number
  overAmbientK?: number
  /** Why the picture proves nothing of health; empty where none of the rules applied. */
  inconclusive: string[]
  hot: boolean
  criteria: { column: 'similar component' | 'ambient air'; band: string; action: string; source: string }[]
}

/** The class on show, and whether it is held above what the evidence says now (PRACTICE 3.4). */
export interface ShownClass {
  class: ConditionClass
  held: boolean
}

export type { Policy }
