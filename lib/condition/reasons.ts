import { newSpliceRatio } from './barrel'
import type { Asymmetry } from './asymmetry'
import type { Context } from './context'
import type { Side } from './interfaces'
import type { VisualState } from './findings'
import { flightsOf } from './flights'
import type { Fusion } from './fusion'
import type { GoverningInfrared, InfraredState } from './infrared-belief'
import { heatReason, type HeatAlone } from './heat-alone'
import type { SideMeasurement } from './measure'
import type { Policy } from './policy'
import { infraredReasons, infraredRuleReason } from './reasons-infrared'
import { limitReasons } from './reasons-limit'
import { trendReasons } from './reasons-trend'
import type { NoTrend } from './series-trends'
import type { SpliceLimit } from './splice-limit'
import type { Trend } from './trend/trend'
import type { AssessmentFlag, ConditionClass, Edges, InfraredNote, Reason, SideAssessment } from './types'
import { anyAtLeast, isAtLeast } from './within-crimp'

export interface ClassFindings {
  context: Context
  condition: ConditionClass
  governing: SideAssessment | undefined
  sides: readonly SideAssessment[]
  /** Read by the newest visit, and not used. */
  refused: readonly Side[]
  /** Set where the class rests on infrared; `governing` is then absent. */
  byInfrared: GoverningInfrared | null
  pictures: InfraredState
  fusion: Fusion | undefined
  trends: readonly Trend[] | undefined
  noTrends: readonly NoTrend[]
  limit: SpliceLimit | undefined
  asymmetry: Asymmetry | undefined
  visual: VisualState
  heat: HeatAlone | null
  infrared: readonly InfraredNote[]
  whyNot: 'automatic' | 'shield-wire' | null
  flags: readonly AssessmentFlag[]
  oldestYears: number | null
  /** Set where a repair began a new series. */
  seriesStartsAtMs: number | undefined
}

/** Whether anybody noted which structure the side faces. Values are written out, not spread: the engine gives reasons a million times. */
const isDeclared = ({ flags }: SideAssessment): boolean => !flags.includes('sides-undeclared')

/** 1.645 standard deviations either way: nine times in ten. */
const NINE_IN_TEN = 1.6448536269514722

/** Why the class is what it is, the most telling first; sentences are made from these by `explain`. */
export function reasonsOfClass(found: ClassFindings): Reason[] {
  const reasons: Reason[] = []
  addClassReason(reasons, found)
  for (const side of found.sides) reasons.push(ratioReason(side, found.context))
  reasons.push(...infraredReasons(found))
  addMissing(reasons, found)
  addAsymmetry(reasons, found)
  addSigns(reasons, found)
  reasons.push(...limitReasons(found.limit, found.condition, found.context.policy.limit.upperShare), ...trendReasons(found.trends, found.noTrends, found.context))
  addCircumstances(reasons, found)
  return reasons
}

function addClassReason(
  reasons: Reason[], { condition, governing, sides, byInfrared, fusion, visual, heat, whyNot, infrared, context, asymmetry, flags }: ClassFindings,
): void {
  if (visual.strandsSeen) {
    const { readingId, takenAtMs } = visual.strandsSeen
    reasons.push({ code: 'broken-strands', values: { takenAtMs: takenAtMs ?? null }, readingIds: [readingId] })
  }
  if (heat) reasons.push(heatReason(heat))
  if (whyNot) reasons.push({ code: 'not-assessed-by-ratio', values: { why: whyNot, kind: context.facts.kind } })
  if (byInfrared && condition !== 'unknown') {
    reasons.push(infraredRuleReason(byInfrared, context))
    return
  }
  if (!governing) {
    if (!whyNot) reasons.push({ code: 'nothing-measured', values: { infrared: infrared.length > 0 } })
    return
  }
  if (condition === 'unknown') {
    reasons.push({ code: 'incomplete', values: { side: governing.side, declared: isDeclared(governing), ratio: governing.ratio, proved: !flags.includes('interface-not-proved'), inPart: anyAtLeast(sides) } })
    return
  }
  const forced = asymmetry?.ageing === true && governing.class === 'sound'
  if (!forced) reasons.push(ruleReason(governing, fusion?.taken === 'infrared', context))
}

function ruleReason(side: SideAssessment, carried: boolean, { edges, policy }: Context): Reason {
  const measured = side.class
  const edge = measured === 'sound' ? edges.watch : edges[measured]
  const limit = measured === 'sound' ? policy.pRules.watch : policy.pRules[measured]
  const chance = measured === 'sound' ? side.pOver.watch : side.pOver[measured]
  return {
    code: 'class-rule', values: {
      side: side.side, declared: isDeclared(side), class: measured, edge, chance, limit, ratio: side.ratio, basis: edges.basis, carried,
      ...nearlyWorse(side, edges, policy),
    },
    readingIds: side.readingIds,
  }
}

/** A chance of the class above from which it is worth a word. */
const WORTH_SAYING = 0.05

/** How near a side that is no longer sound stands to the class above its own. */
function nearlyWorse({ class: measured, pOver }: SideAssessment, edges: Edges, { pRules }: Policy): Reason['values'] {
  const next = measured === 'watch' ? 'degraded' : measured === 'degraded' ? 'urgent' : measured === 'urgent' ? 'critical' : null
  if (next === null || pOver[next] < WORTH_SAYING) return {}
  return { nextClass: next, nextEdge: edges[next], nextChance: pOver[next], nextLimit: pRules[next] }
}

function ratioReason(side: SideAssessment, { interfaces }: Context): Reason {
  const uLn = side.uRatio / side.ratio
  return {
    code: 'side-ratio',
    values: {
      side: side.side, declared: isDeclared(side), name: interfaces.names[side.side], sideUohm: side.sideUohm, conductorUohm: side.conductorUohm, ratio: side.ratio,
      lowRatio: side.ratio * Math.exp(-NINE_IN_TEN * uLn), highRatio: side.ratio * Math.exp(NINE_IN_TEN * uLn), repeats: side.repeats,
      reference: side.reference, takenAtMs: side.takenAtMs ?? null, class: side.class, atLeast: isAtLeast(side),
    },
    readingIds: side.readingIds,
  }
}

function addMissing(reasons: Reason[], { sides, refused, context, whyNot }: ClassFindings): void {
  const { count, names } = context.interfaces
  if (whyNot || sides.length === 0 || sides.length >= count) return
  if (count > 2) {
    reasons.push({ code: 'leg-missing', values: { measured: sides.length, count } })
    return
  }
  const [known] = sides
  const missing = known?.side === 'A' ? 'B' : 'A'
  if (!known || refused.includes(missing)) return // it was read, and its own reason says what that proves
  reasons.push({ code: 'one-side-missing', values: { side: missing, declared: isDeclared(known), name: names[missing] } })
}

function addAsymmetry(reasons: Reason[], { asymmetry, sides, context }: ClassFindings): void {
  if (!asymmetry || asymmetry.value <= context.policy.asymmetry.limit || sides.some(({ ratio }) => ratio >= 1)) return
  const values = { asymmetry: asymmetry.value, limit: context.policy.asymmetry.limit }
  reasons.push({ code: asymmetry.ageing ? 'asymmetry' : 'asymmetry-not-counted', values })
}

function addSigns(reasons: Reason[], { visual, infrared, context }: ClassFindings): void {
  if (visual.telling) {
    const { overK, odds } = visual.sign
    reasons.push({ code: 'finding', values: { finding: visual.telling, overK, odds }, readingIds: visual.readingIds })
  }
  if (visual.mechanical.length > 0) {
    reasons.push({ code: 'mechanical-finding', values: { findings: visual.mechanical.join(', ') }, readingIds: visual.readingIds })
  }
  const flights = flightsOf(infrared, context.policy)
  for (const flight of flights) {
    const hot = flight.filter((note) => note.hot)
    if (hot.length === 0) continue
    const overConductorK = Math.max(...hot.map((note) => note.heatOverConductorK ?? 0))
    const causes = [...new Set(hot.flatMap((note) => note.inconclusive))].join(', ')
    reasons.push(flightReason('infrared-hot', hot, { overConductorK, limitK: context.policy.infrared.hotOverConductorK, causes }))
  }
  for (const flight of flights) {
    const unclear = flight.filter((note) => note.inconclusive.length > 0 && !note.hot) // a hot one says so in its own sentence
    if (unclear.length === 0) continue
    const causes = [...new Set(unclear.flatMap((note) => note.inconclusive))]
    reasons.push(flightReason('infrared-inconclusive', unclear, { causes: causes.join(', '), ...wouldTake(unclear, context) }))
  }
}

/** What a flight could not have shown, and about the load at which it would have: differences grow with the square of the current at least. */
function wouldTake(pictures: readonly InfraredNote[], { policy }: Context): Reason['values'] {
  const note = pictures.findLast(({ inconclusive }) => inconclusive.includes('not-detectable'))
  if (note?.wouldShowK === undefined || note.neededK === undefined) return {}
  const enough = note.lineCurrentA !== undefined && note.wouldShowK > 0 ? note.lineCurrentA * Math.sqrt(note.neededK / note.wouldShowK) : null
  return { detectRatio: policy.radiometry.detectK, wouldShowK: note.wouldShowK, neededK: note.neededK, enoughA: enough }
}

/** When and at what load a flight took its pictures; of several the newest speaks. @param values completed by these: a copy would cost more than all the rest */
function flightReason(code: string, pictures: readonly InfraredNote[], values: Reason['values']): Reason {
  const newest = pictures.at(-1)
  values.takenAtMs = newest?.takenAtMs ?? null
  values.currentA = newest?.lineCurrentA ?? null
  values.loadShare = newest?.loadShare ?? null
  values.count = pictures.length
  return { code, values, readingIds: pictures.map(({ readingId }) => readingId) }
}

function addCircumstances(reasons: Reason[], { flags, context, oldestYears, condition, seriesStartsAtMs }: ClassFindings): void {
  if (flags.includes('stale')) {
    const intervalYears = condition === 'unknown' ? null : context.policy.resurveyYears[condition]
    reasons.push({ code: 'stale', values: { years: oldestYears, intervalYears } })
  }
  if (flags.includes('edges-default-above-75')) {
    reasons.push({ code: 'edges-makeshift', values: { maxOperatingC: context.facts.maxOperatingC ?? null, urgent: context.edges.urgent } })
  } else if (context.edges.basis === 'section') {
    const { upToC = null } = context.edges
    reasons.push({ code: 'edges-of-section', values: { maxOperatingC: context.facts.maxOperatingC ?? null, upToC } })
  } else if (flags.includes('edges-computed')) {
    reasons.push({ code: 'edges-computed', values: computedEdgeValues(context) })
  }
  if (seriesStartsAtMs !== undefined) reasons.push({ code: 'since-repair', values: { fromMs: seriesStartsAtMs } })
}

function computedEdgeValues({ conductor, facts, edges, barrelAssumed, policy }: Context): Reason['values'] {
  const { limit, ratingWeather } = policy
  return {
    maxOperatingC: facts.maxOperatingC ?? null, conductor: conductor?.code ?? null, barrelAssumed, ambientC: ratingWeather.ambientC,
    limitC: limit.temperatureC, urgent: edges.urgent, emergencyC: limit.emergencyC, critical: edges.critical,
  }
}

/** What a new splice reads with these electrode positions, where barrel, conductor and positions are all known. */
export function newSpliceReason(side: SideMeasurement | undefined, { barrelRatio, barrelAssumed, interfaces }: Context): Reason | null {
  if (!side || isAtLeast(side) || barrelRatio === null || barrelAssumed || !interfaces.barrelSides.includes(side.side)) return null
  const { electrodeSpanM, barrelElectrodeM } = side
  if (electrodeSpanM === undefined || barrelElectrodeM === undefined || barrelElectrodeM > electrodeSpanM) return null
  const bareShare = 1 - barrelElectrodeM / electrodeSpanM
  return { code: 'new-splice-reads', values: { side: side.side, bareShare, newRatio: newSpliceRatio(bareShare, barrelRatio) } }
}

