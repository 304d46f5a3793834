import { nextActions } from './actions'
import { asymmetryOf, type Asymmetry } from './asymmetry'
import { believedSides, type BelievedSides } from './believed-sides'
import { chancesOf, confidenceFrom, rankOf, sharesFrom, worseOf } from './classify'
import { conclusiveAt } from './conclusive'
import { contextFor, type Context } from './context'
import { visualState, type VisualState } from './findings'
import { measureSessions, visitSummaries } from './history'
import { infraredNote } from './infrared-note'
import { whyNotByRatio } from './interfaces'
import type { Policy } from './policy'
import { priorBelief } from './posterior'
import { newSpliceReason, reasonsOfClass } from './reasons'
import { currentSeries } from './series'
import type { Signs } from './side'
import type {
  Assessment, AssessmentFlag, Confidence, Evidence, InfraredNote, MeasuredClass, ResistanceEvidence, SideAssessment, SpliceFacts,
} from './types'
import { ENGINE_VERSION } from './version'

export interface AssessmentInput {
  facts: SpliceFacts
  /** All evidence of one splice in any order. */
  evidence: readonly Evidence[]
  policy: Policy
  /** The moment for which the splice is judged, ms since 1970 UTC: readings age up to it. The engine has no clock. */
  asOfMs: number
}

/** These keep confidence at low, whatever the numbers say. */
const CAPPING: readonly AssessmentFlag[] = ['partial', 'provisional', 'stale', 'conflict', 'edges-default-above-75']

/**
 * What the evidence says of one splice, with its reasons. Never throws for data: what cannot be used is named in the
 * reasons, and a splice without a usable ratio is `unknown`, never sound.
 */
export function assess({ facts, evidence, policy, asOfMs }: AssessmentInput): Assessment {
  const context = contextFor(facts, policy)
  const series = currentSeries(evidence)
  const visual = visualState(series, policy)
  const infrared = infraredNotes(series, context)
  const signs = signsOf(visual, infrared, policy)
  const whyNot = whyNotByRatio(facts)
  const sessions = whyNot ? [] : measureSessions(resistanceOf(series), context)
  const believed = believedSides(sessions, signs, asOfMs, context)
  const governing = worst(believed.sides)
  const flags = believed.flags
  if (whyNot) flags.push('not-assessed-by-ratio')
  const asymmetry = asymmetryOf(believed.measurements, policy)
  const condition = conditionOf(governing, asymmetry, visual, flags, believed, context)
  addFlags(flags, governing, condition, believed, asymmetry, visual, infrared, context)
  const reasons = reasonsOfClass({
    context, condition, governing, sides: believed.sides, refused: believed.refused, asymmetry, visual, infrared, whyNot, flags,
    oldestYears: believed.oldestYears, seriesStartsAtMs: evidence.length > series.length ? series[0]?.takenAtMs : undefined,
  })
  reasons.push(...believed.reasons)
  const known = condition === 'unknown' ? undefined : governing
  const chances = known?.pOver ?? chancesOf(priorBelief(policy), context.edges, strongest(signs))
  const bare = newSpliceReason(believed.measurements.find(({ side }) => side === governing?.side), context)
  if (bare) reasons.push(bare)
  return {
    engineVersion: ENGINE_VERSION,
    policyVersion: policy.version,
    class: condition,
    confidence: confidenceOf(condition, governing, visual, flags, policy),
    ratio: known?.ratio,
    governingSide: known?.side,
    sides: believed.sides,
    asymmetry: asymmetry?.value,
    edges: context.edges,
    shares: sharesFrom(chances),
    flags,
    reasons,
    nextActions: nextActions(condition, flags, {
      byRatio: whyNot === null, legMissing: context.interfaces.count > 2, measured: believed.sides.length > 0,
      otherSideRead: believed.refused.length > 0,
    }, policy),
    mechanicalFindings: visual.mechanical,
    infrared,
    visits: visitSummaries(sessions, context),
    conclusiveAtMs: conclusiveAt(sessions, believed, infrared, context),
    lastReadingAtMs: newestOf(evidence),
    readingCount: evidence.length,
  }
}

const resistanceOf = (series: readonly Evidence[]): ResistanceEvidence[] => {
  const readings: ResistanceEvidence[] = []
  for (const evidence of series) if (evidence.source === 'resistance') readings.push(evidence)
  return readings
}

const infraredNotes = (series: readonly Evidence[], context: Context): InfraredNote[] => {
  const notes: InfraredNote[] = []
  for (const evidence of series) if (evidence.source === 'infrared') notes.push(infraredNote(evidence, context))
  return notes
}

/** A hot picture counts once however often it was taken, in more wind than the limit only up to degraded. */
function signsOf(visual: VisualState, notes: readonly InfraredNote[], policy: Policy): Signs {
  const hot = notes.filter((note) => note.hot)
  if (hot.length === 0) return { firm: visual.sign, windy: null }
  const { overK, odds } = visual.sign
  const { hotOdds } = policy.infrared
  if (hot.some((note) => !note.inconclusive.includes('wind'))) return { firm: { overK, odds: odds * hotOdds }, windy: null }
  return { firm: visual.sign, windy: { overK, odds: hotOdds } }
}

const strongest = ({ firm, windy }: Signs) => (windy ? { overK: firm.overK, odds: firm.odds * windy.odds } : firm)

/** The worse side governs; of two in one class the one believed higher. */
function worst(sides: readonly SideAssessment[]): SideAssessment | undefined {
  let found: SideAssessment | undefined
  for (const side of sides) {
    const by = found ? rankOf(side.class) - rankOf(found.class) : 1
    if (by > 0 || (by === 0 && found && side.medianK > found.medianK)) found = side
  }
  return found
}

function conditionOf(
  governing: SideAssessment | undefined, asymmetry: Asymmetry | undefined, visual: VisualState, flags: readonly AssessmentFlag[],
  believed: BelievedSides, context: Context,
): Assessment['class'] {
  let found: MeasuredClass | null = governing?.class ?? null
  const incomplete = flags.includes('interface-not-proved') && believed.sides.length < context.interfaces.count
  if (found === 'sound' && incomplete) found = null
  if (found && asymmetry?.ageing) found = worseOf(found, 'watch')
  if (visual.brokenStrands) found = found ? worseOf(found, 'urgent') : 'urgent'
  return found ?? 'unknown'
}

function addFlags(
  flags: AssessmentFlag[], governing: SideAssessment | undefined, condition: Assessment['class'], believed: BelievedSides,
  asymmetry: Asymmetry | undefined, visual: VisualState, infrared: readonly InfraredNote[], context: Context,
): void {
  if (governing && believed.sides.length < context.interfaces.count) flags.push('partial')
  if (asymmetry?.ageing) flags.push('asymmetry')
  if (governing && isStale(believed.oldestYears, condition, context.policy)) flags.push('stale')
  if (context.edgesMakeshift && governing) flags.push('edges-default-above-75')
  if (infrared.some((note) => note.hot)) flags.push('infrared-hot')
  if (infrared.some((note) => note.inconclusive.length > 0)) flags.push('infrared-inconclusive')
  if (visual.mechanical.length > 0) flags.push('mechanical-finding')
}

/** Older than two intervals of its class, or nobody knows how old. */
function isStale(years: number | null, condition: Assessment['class'], policy: Policy): boolean {
  if (years === null) return true
  return condition !== 'unknown' && years > 2 * policy.resurveyYears[condition]
}

/** Broken strands are seen, not worked out, and by somebody from somewhere: medium by themselves. */
function confidenceOf(
  condition: Assessment['class'], governing: SideAssessment | undefined, visual: VisualState, flags: readonly AssessmentFlag[],
  policy: Policy,
): Confidence {
  if (condition === 'unknown') return 'low'
  if (visual.brokenStrands && (!governing || rankOf(governing.class) < rankOf('urgent'))) return 'medium'
  if (!governing || CAPPING.some((flag) => flags.includes(flag))) return 'low'
  return confidenceFrom(condition, governing.pOver, policy.confidence)
}

function newestOf(evidence: readonly Evidence[]): number | undefined {
  let newest: number | undefined
  for (const { takenAtMs } of evidence) if (takenAtMs !== undefined && (newest === undefined || takenAtMs > newest)) newest = takenAtMs
  return newest
}
