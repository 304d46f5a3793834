import type { CameraNote } from './camera'
import type { Fusion } from './fusion'
import type { Policy } from './policy'
import type { SpliceLimit } from './splice-limit'
import type { Surfaces } from './surface'
import type { Trend } from './trend/trend'

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
  /** WGS84, for the sun on the barrel. */
  latitudeDeg?: number
  longitudeDeg?: number
  /** Of the span, clockwise from north, either way along it. */
  lineAzimuthDeg?: number
  /** Of the section; absent: that of rating weather is taken. */
  elevationM?: number
  /** Of the circuit, between phases. */
  voltageKv?: number
  /** Per phase: what the circuit is expected to carry at most, and after the worst single outage elsewhere. */
  expectedPeakA?: number
  postContingencyA?: number
  /** Of the fitting, ms since 1970 UTC: tells how weathered its surface was in a picture. */
  installedAtMs?: number
  /** Of barrel and conductor, where somebody states it: then neither age nor policy is asked. */
  surfaceEmissivity?: number
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

/** Micro-ohms over the electrode span (valid 0.5 … 50,000 µΩ). Side A faces the structure of the lower line distance. */
export interface ResistanceEvidence extends EvidenceBase {
  source: 'resistance'
  sideAUohm?: number
  sideBUohm?: number
  conductorUohm?: number
  conductorBUohm?: number
  /** What was typed for the conductor where it cannot be a reading: the table stands in, provisionally. */
  conductorUnusable?: string
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
  /** As set in the camera, like `reflectedC`: what the surface truly has comes from the policy, by its age. */
  emissivity?: number
  reflectedC?: number
  /** What the surfaces truly mirrored, where somebody states it: then the policy is not asked. */
  trueReflectedC?: number
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
  | 'ratio-fell' | 'ratio-jumped' | 'implausible' | 'infrared-only' | 'infrared-conflict'

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
  /** Maximum operating temperature up to which these edges hold, °C; absent where they stand in for a hotter section. */
  upToC?: number
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
  /** What the reading alone says, without what was believed before: for the working. */
  pOverMeasured: { watch: number; degraded: number; urgent: number; critical: number }
  class: MeasuredClass
  flags: AssessmentFlag[]
  readingIds: (number | string)[]
  takenAtMs?: number
  /** How many side readings the mean rests on. */
  repeats: number
  /** What the conductor reference is: measured beside the splice, from the table (nothing measured, or too high to be true), or its dc
   * equivalent (single-layer ACSR). */
  reference: ReferenceBasis
  /** 0.05 … 1.0 m; absent where nobody noted it. */
  electrodeSpanM?: number
}

export type ReferenceBasis = 'measured' | 'table' | 'dc-equivalent'

/**
 * What one visit with one instrument says by itself, for history and for clearing a held class: newest last.
 * `class` is absent where the visit gave no usable ratio.
 */
export interface VisitSummary {
  /** 'infrared': a conclusive flight; it may hold a class and never clears one. Absent: resistance. */
  source?: 'infrared'
  takenAtMs?: number
  survey?: string
  instrument?: string
  class?: MeasuredClass
  /** Measured ratio of the worse side. */
  ratio?: number
  /** True where every interface of the fitting gave a usable ratio. */
  complete: boolean
  /** Each side with a usable ratio, as measured; `uRatio` is its standard uncertainty. `atLeast`: part of its interface lay outside the reading. */
  sides: { side: 'A' | 'B'; ratio: number; uRatio: number; sidesDeclared: boolean; atLeast?: true }[]
  readingIds: (number | string)[]
}

export interface Assessment {
  engineVersion: string
  policyVersion: number
  /** What the evidence says by itself. */
  class: ConditionClass
  confidence: Confidence
  /**
   * Measured ratio of the governing side, as a crew works it out; absent when unknown and where a picture or broken strands make the class, not
   * that ratio. What is believed is its `medianK`.
   */
  ratio?: number
  /** What raised the class above all that ratios give. Then none of them speaks for the splice: neither current nor temperature is drawn from one. */
  raisedBy?: 'heat' | 'strands'
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
  nextActions: NextAction[]
  mechanicalFindings: Finding[]
  infrared: InfraredNote[]
  /** How infrared was brought together with resistance; absent where no picture tells a ratio. */
  fusion?: Fusion
  /** Growth of each series with two readings or more since the last repair. */
  trends?: Trend[]
  /** When it is to be read again, ms since 1970 UTC; absent where nothing dated was read. */
  nextReadingDueMs?: number
  /** What it may carry at rating weather, from watch on; absent where none can be drawn. Advice for the rating engineer. */
  limit?: SpliceLimit
  /** Resistance visits since the last repair, oldest first; the last few. */
  visits: VisitSummary[]
  /** When a look at it could last have shown a failing splice; absent: none has. */
  conclusiveAtMs?: number
  /** When every interface was last read: only then would one bad side have shown for certain; absent: never. */
  everyInterfaceAtMs?: number
  lastReadingAtMs?: number
  readingCount: number
}

export const ACTION_CODES = [
  'call-control-room', 'decide-load-or-outage', 'confirm-reading', 'repair', 'repair-in-outage', 'look-at-peak-load', 'record',
  'measure-again', 'measure-resistance', 'measure-other-side', 'repeat-reading', 'measure-conductor', 'check-conductor-code',
  'record-electrode-span', 'raise-test-current', 'measure-all-legs', 'set-edges', 'engineer-on-mechanical-state',
  'second-reading-or-engineer',
] as const
export type ActionCode = (typeof ACTION_CODES)[number]

export interface NextAction {
  code: ActionCode
  withinHours?: number
  withinDays?: number
}

/** Infrared here is shown with its difference and the published criteria as a secondary note. */
export interface InfraredNote {
  readingId: number | string
  takenAtMs?: number
  survey?: string
  /** Per phase, when the picture was taken. */
  lineCurrentA?: number
  /** Of the section's rating. */
  loadShare?: number
  spliceTempC?: number
  referenceKind?: 'own-conductor' | 'same-fitting' | 'air'
  /** Over its own conductor, or over the same fitting elsewhere where `referenceKind` says so. */
  overConductorK?: number
  overAmbientK?: number
  windMS?: number
  /** By the heat balance, where conductor, load and weather are known: ratio of the whole splice with its standard error of ln k. */
  k?: number
  uLnK?: number
  /** Across the line, as the conductor's own temperature shows it. */
  effectiveWindMS?: number
  /** What the camera had set; absent where nobody noted it, and the temperatures stand as given. */
  camera?: CameraNote
  /** How well barrel and conductor truly give off heat. */
  surfaces?: Surfaces
  /** Put right for camera and surface: what k and the rules use. The temperatures above are as read. Absent where they stand as given. */
  trueSpliceC?: number
  trueConductorC?: number
  trueOverConductorK?: number
  trueOverAmbientK?: number
  /** By which it is hot or not: put right, but of bright metal as read. */
  heatOverConductorK?: number
  /** What k would be of the same picture with bright and with weathered surfaces; absent where none can be told. */
  kIfBright?: number
  kIfWeathered?: number
  /** How much hotter a splice of the policy's ratio would have shown, and how much it takes to prove something. */
  wouldShowK?: number
  neededK?: number
  /** Over the barrel; absent where camera, distance or barrel are not known. */
  pixels?: number
  /** Why the picture proves nothing of health; empty where none of the rules applied. */
  inconclusive: string[]
  hot: boolean
  /** The row of the published table that a difference falls in, K; `upToK` null where the row has no end. */
  criteria: { column: 'similar component' | 'ambient air'; fromK: number; upToK: number | null; action: string; source: string }[]
}

/** The class on show, and whether it is held above what the evidence says now: urgent and critical never fall by themselves. */
export interface ShownClass {
  class: ConditionClass
  held: boolean
  /** When the finding behind a degraded, urgent or critical class was measured; only later readings can clear the latter two. */
  foundAtMs?: number
  /** Measured ratio of that finding's worse side; absent where it was seen and not measured. */
  foundRatio?: number
  /** The readings it rests on, oldest first. */
  foundReadingIds?: (number | string)[]
}

export type { Policy }
