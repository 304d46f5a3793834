import { nextActions } from './actions'
import { asymmetryOf, type Asymmetry } from './asymmetry'
import { believedSides, type BelievedSides } from './believed-sides'
import { chancesOf, confidenceFrom, rankOf, sharesFrom, worseOf } from './classify'
import { conclusiveAt, everyInterfaceAt } from './conclusive'
import { contextFor, type Context } from './context'
import { visualState, type VisualState } from './findings'
import { measureSessions, visitSummaries, withFlights } from './history'
import { fuseSides, type FusedSides } from './fused-sides'
import type { Fusion, InfraredBelief } from './fusion'
import { heatAlone, type HeatAlone } from './heat-alone'
import { infraredState, NO_PICTURES, signsOf, type GoverningInfrared, type InfraredState } from './infrared-belief'
import { infraredNote } from './infrared-note'
import { whyNotByRatio } from './interfaces'
import { YEAR_MS } from './limits'
import type { Policy } from './policy'
import type { Belief } from './posterior'
import { newSpliceReason, reasonsOfClass } from './reasons'
import { renewedFacts } from './renewed'
import { currentSeries } from './series'
import { dueMs, noTrendsOf, trendsOf } from './series-trends'
import type { Signs } from './side'
import { spliceLimit, type SpliceLimit } from './splice-limit'
import type {
  Assessment, AssessmentFlag, Confidence, Evidence, InfraredNote, MeasuredClass, ResistanceEvidence, SideAssessment, SpliceFacts,
} from './types'
import { ENGINE_VERSION } from './version'
import { anyAtLeast, oneForBothSides } from './within-crimp'

export interface AssessmentInput {
  facts: SpliceFacts
  /** All evidence of one splice in any order. */
  evidence: readonly Evidence[]
  policy: Policy
  /** The moment for which the splice is judged, ms since 1970 UTC: readings age up to it. The engine has no clock. */
  asOfMs: number
}

/** These keep confidence at low, whatever the numbers say. */
const CAPPING: readonly AssessmentFlag[] = ['partial', 'provisional', 'stale', 'conflict', 'infrared-conflict', 'edges-default-above-75']

/**
 * What the evidence says of one splice, with its reasons. Never throws for data: what cannot be used is named in the
 * reasons, and a splice without a usable ratio is `unknown`, never sound.
 */
export function assess({ facts, evidence, policy, asOfMs }: AssessmentInput): Assessment {
  const series = currentSeries(evidence)
  const context = contextFor(renewedFacts(facts, series), policy)
  const visual = visualState(series, policy)
  const infrared = infraredNotes(series, context)
  const signs = signsOf(visual.sign, infrared, policy)
  const whyNot = whyNotByRatio(facts)
  const sessions = whyNot ? [] : measureSessions(resistanceOf(series), context)
  const believed = believedSides(sessions, signs, asOfMs, context)
  const pictures = whyNot ? NO_PICTURES : infraredState(infrared, asOfMs, policy)
  const visits = withFlights(visitSummaries(sessions, context), pictures.flights, context)
  const fused = fuseSides(believed, pictures, signs, visits, asOfMs, context)
  if (fused) believed.sides = fused.sides
  const worstSide = worst(believed.sides)
  const flags = believed.flags
  const byInfrared = governingInfrared(worstSide, fused, pictures, flags)
  const governing = byInfrared ? undefined : worstSide
  if (fused && byInfrared) fused.fusion.believed = { meanLnK: byInfrared.found.belief.mean, sdLnK: byInfrared.found.belief.sd }
  if (whyNot) flags.push('not-assessed-by-ratio')
  const asymmetry = asymmetryOf(believed.measurements, policy)
  const measured = byInfrared?.found.class ?? governing?.class ?? null
  const byPicture = byInfrared !== null || fused?.fusion.taken === 'infrared'
  const drawn = spliceLimit(measured, [...beliefsOf(believed.sides, fused), ...believed.fellFrom], byPicture, context)
  const everyInterfaceAtMs = everyInterfaceAt(sessions, believed, context)
  const conclusiveAtMs = conclusiveAt(everyInterfaceAtMs, infrared, context)
  const heat = whyNot ? null : heatAlone(infrared, conclusiveAtMs, policy)
  const { condition, raisedBy } = conditionOf(measured, byInfrared, drawn, asymmetry, visual, heat, flags, believed, context)
  // Of a ratio that is only 'at least' nobody knows what it lies under.
  const atLeast = anyAtLeast(believed.sides)
  const limit = raisedBy || atLeast ? undefined : drawn
  const oldestYears = byInfrared ? yearsSince(byInfrared.picture.takenAtMs, asOfMs) : believed.oldestYears
  const basis: Basis = { governing, byInfrared, condition, oldestYears, fusion: fused?.fusion, peakPassesLimit: limit?.peakPassesIt === true, atLeast }
  addFlags(flags, basis, believed, asymmetry, visual, infrared, context)
  const trends = trendsOf(sessions, pictures.flights, context)
  const reasons = reasonsOfClass({
    context, condition, governing, byInfrared, pictures, fusion: fused?.fusion, trends, noTrends: noTrendsOf(sessions, pictures.flights, context), limit, sides: believed.sides, refused: believed.refused,
    asymmetry, visual, heat, infrared, whyNot, flags, oldestYears,
    seriesStartsAtMs: evidence.length > series.length ? series[0]?.takenAtMs : undefined,
  })
  reasons.push(...(atLeast ? oneForBothSides(believed.reasons) : believed.reasons))
  if (atLeast && drawn?.peakPassesIt) reasons.unshift({ code: 'peak-over-least', values: { peakA: facts.expectedPeakA ?? null } })
  const known = condition === 'unknown' ? undefined : governing
  const ofRatio = raisedBy ? undefined : known
  const chances = (condition === 'unknown' ? undefined : byInfrared?.found.pOver) ?? known?.pOver
    ?? chancesOf(context.prior, context.edges, strongest(signs))
  const bare = newSpliceReason(believed.measurements.find(({ side }) => side === governing?.side), context)
  if (bare) reasons.push(bare)
  return {
    engineVersion: ENGINE_VERSION,
    policyVersion: policy.version,
    class: condition,
    confidence: confidenceOf(basis, visual, flags, policy),
    ratio: byPicture ? undefined : ofRatio?.ratio,
    raisedBy,
    governingSide: ofRatio?.side,
    sides: believed.sides,
    asymmetry: asymmetry?.value,
    edges: context.edges,
    shares: sharesFrom(chances),
    flags,
    reasons,
    nextActions: nextActions(condition, flags, {
      byRatio: whyNot === null, legMissing: context.interfaces.count > 2, measured: believed.sides.length > 0,
      otherSideRead: believed.refused.length > 0, byHeat: heat !== null, raisedByHeat: raisedBy === 'heat',
    }, policy),
    mechanicalFindings: visual.mechanical,
    infrared,
    fusion: fused?.fusion,
    trends,
    limit,
    nextReadingDueMs: dueMs({ condition, sides: believed.sides, picture: restsOnPicture(byInfrared, fused, pictures), trends }, context),
    visits,
    conclusiveAtMs,
    everyInterfaceAtMs,
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

/** What the class rests on. */
interface Basis {
  governing: SideAssessment | undefined
  byInfrared: GoverningInfrared | null
  condition: Assessment['class']
  /** Null where something it rests on has no date. */
  oldestYears: number | null
  fusion: Fusion | undefined
  /** The class was raised by the load, not by the ratio. */
  peakPassesLimit: boolean
  /** An interface lay only in part between the electrodes. */
  atLeast: boolean
}

/** Infrared governs where resistance leaves an interface unread and is no worse; it calls nothing sound whose reading lay on the barrel alone. */
function governingInfrared(
  side: SideAssessment | undefined, fused: FusedSides | null, { counts }: InfraredState, flags: readonly AssessmentFlag[],
): GoverningInfrared | null {
  if (!fused?.byInfrared || !counts) return null
  if (fused.byInfrared.class === 'sound' && flags.includes('interface-not-proved')) return null
  if (side && rankOf(side.class) >= rankOf(fused.byInfrared.class)) return null
  return { found: fused.byInfrared, picture: counts }
}

const beliefsOf = (sides: readonly SideAssessment[], fused: FusedSides | null): Belief[] => {
  const beliefs = sides.map(({ meanLnK, sdLnK }) => ({ mean: meanLnK, sd: sdLnK }))
  return fused?.byInfrared ? [...beliefs, fused.byInfrared.belief] : beliefs
}

const restsOnPicture = (byInfrared: GoverningInfrared | null, fused: FusedSides | null, { counts }: InfraredState): InfraredBelief | null =>
  byInfrared?.picture ?? (fused?.fusion.taken === 'infrared' ? counts : null)

const yearsSince = (takenAtMs: number | undefined, asOfMs: number): number | null =>
  takenAtMs === undefined ? null : Math.max(0, (asOfMs - takenAtMs) / YEAR_MS)

function conditionOf(
  measured: MeasuredClass | null, byInfrared: GoverningInfrared | null, limit: SpliceLimit | undefined, asymmetry: Asymmetry | undefined, visual: VisualState, heat: HeatAlone | null, flags: readonly AssessmentFlag[],
  believed: BelievedSides, context: Context,
): { condition: Assessment['class']; raisedBy?: Assessment['raisedBy'] } {
  let found = measured
  // Nothing is assumed of an interface that nobody read, so the others do not make the splice sound; a picture speaks of all of it.
  const incomplete = believed.sides.length < context.interfaces.count && (byInfrared === null || flags.includes('interface-not-proved'))
  const atLeast = anyAtLeast(believed.sides)
  if (found === 'sound' && (incomplete || atLeast)) found = null
  if (asymmetry?.ageing && (found || atLeast)) found = worseOf(found ?? 'sound', 'watch')
  if (found && limit?.peakPassesIt) found = worseOf(found, 'urgent')
  let raisedBy: Assessment['raisedBy']
  for (const [by, raisedTo] of [['heat', heat?.class], ['strands', visual.brokenStrands ? 'urgent' : undefined]] as const) {
    if (raisedTo === undefined || (found !== null && rankOf(found) >= rankOf(raisedTo))) continue
    found = raisedTo
    raisedBy = by
  }
  return { condition: found ?? 'unknown', raisedBy }
}

function addFlags(
  flags: AssessmentFlag[], { governing, byInfrared, condition, oldestYears, fusion }: Basis, believed: BelievedSides,
  asymmetry: Asymmetry | undefined, visual: VisualState, infrared: readonly InfraredNote[], context: Context,
): void {
  if (believed.sides.length > 0 && believed.sides.length < context.interfaces.count) flags.push('partial')
  if (asymmetry?.ageing) flags.push('asymmetry')
  if ((governing || byInfrared) && isStale(oldestYears, condition, byInfrared !== null, context.policy)) flags.push('stale')
  if (byInfrared && condition !== 'unknown') flags.push('infrared-only')
  if (fusion?.conflict) flags.push('infrared-conflict')
  if (context.edgesMakeshift && (governing || byInfrared)) flags.push('edges-default-above-75')
  if (context.edges.basis === 'computed' && (governing || byInfrared)) flags.push('edges-computed')
  if (infrared.some((note) => note.hot)) flags.push('infrared-hot')
  if (infrared.some((note) => note.inconclusive.length > 0)) flags.push('infrared-inconclusive')
  if (visual.mechanical.length > 0) flags.push('mechanical-finding')
}

/** Older than two intervals of its class, or nobody knows how old. */
function isStale(years: number | null, condition: Assessment['class'], byInfrared: boolean, { resurveyYears }: Policy): boolean {
  if (years === null) return true
  if (condition === 'unknown') return false
  return years > 2 * (byInfrared && condition === 'sound' ? resurveyYears.soundByInfrared : resurveyYears[condition])
}

/**
 * Broken strands are seen, not worked out, and by somebody from somewhere: medium by themselves. Infrared alone sees the mean of all
 * interfaces and not the worse one, a ratio against the table's conductor rests on a code word, and a conductor reading that is somewhat off its
 * table makes a repair's acceptance conditional: never more than medium (our own choice). A ratio that is only 'at least' is never more than low.
 */
function confidenceOf(
  { condition, governing, byInfrared, peakPassesLimit, atLeast }: Basis, visual: VisualState, flags: readonly AssessmentFlag[], policy: Policy,
): Confidence {
  if (condition === 'unknown') return 'low'
  const measured = byInfrared?.found ?? governing
  if (visual.brokenStrands && (!measured || rankOf(measured.class) < rankOf('urgent'))) return 'medium'
  if (!measured || atLeast || CAPPING.some((flag) => flags.includes(flag))) return 'low'
  const confidence = confidenceFrom(peakPassesLimit ? measured.class : condition, measured.pOver, policy.confidence)
  return confidence === 'high' && (byInfrared || governing?.reference === 'table' || flags.includes('conductor-reference-warn')) ? 'medium' : confidence
}

function newestOf(evidence: readonly Evidence[]): number | undefined {
  let newest: number | undefined
  for (const { takenAtMs } of evidence) if (takenAtMs !== undefined && (newest === undefined || takenAtMs > newest)) newest = takenAtMs
  return newest
}
