import { classRank } from './classify'
import type { ConditionClass, Confidence } from './types'

/** What the order of the watch list looks at, beside the class. */
export interface RiskFacts {
  /** The greatest of last known load, expected peak and flow after the worst outage elsewhere, over the limit; undefined where no flow or no limit is known. */
  loadShare?: number
  confidence: Confidence
  /** A held class counts as found: nobody has shown it to be better. */
  held: boolean
  /** 0 to 4, see `consequenceOf`. */
  consequence: number
}

/** Shares of its limit at which a splice moves up, with the place of each. One of which it is not known stands between: it may be over. */
export const LOAD_STEPS: readonly { from: number; place: number }[] = [{ from: 1, place: 4 }, { from: 0.8, place: 3 }, { from: 0.5, place: 1 }, { from: 0, place: 0 }]
export const LOAD_NOT_KNOWN_PLACE = 2

/** From this power on a circuit counts as large, MW. */
export const LARGE_MW = 100

/** What a failure does beyond the line: supply lost at once (2), much of it (1), the conductor down on something (1). */
export const consequenceOf = ({ radial, mw, crosses }: { radial: boolean | null; mw: number | null; crosses: boolean }): number =>
  (radial === true ? 2 : 0) + (mw !== null && mw >= LARGE_MW ? 1 : 0) + (crosses ? 1 : 0)

const CONFIDENCE_PLACE: Record<Confidence, number> = { low: 0, medium: 1, high: 2 }

/**
 * Where a degraded or worse splice stands within its class, 0 to 424, a digit a rule in the order in which operations asks: limit against
 * load, then confidence, then consequence. Common practice, no source. A database keeps it in an index, so it is a number.
 */
export function riskOf({ loadShare, confidence, held, consequence }: RiskFacts): number {
  const load = loadShare === undefined ? LOAD_NOT_KNOWN_PLACE : (LOAD_STEPS.find(({ from }) => loadShare >= from)?.place ?? 0)
  return load * 100 + (held ? CONFIDENCE_PLACE.high : CONFIDENCE_PLACE[confidence]) * 10 + consequence
}

export interface Ranked { class: ConditionClass; risk: number; /** Calendar year (UTC) of the last reading, 0 without one. */ readYear: number; ratio: number | null; id: number }

/** The order of the watch list: class, then `riskOf`, then what was not read for longer, then the higher ratio. */
export function compareByRisk(a: Ranked, b: Ranked): number {
  return classRank(b.class) - classRank(a.class) || b.risk - a.risk || a.readYear - b.readYear || (b.ratio ?? 0) - (a.ratio ?? 0) || a.id - b.id
}

export type NextStep = 'call-control-room' | 'decide-load-or-outage' | 'second-reading-or-engineer' | 'repair' | 'repair-in-outage'

/** The first thing that is still to be done about a degraded or worse splice; null for others. */
export function nextStep(of: { class: ConditionClass; measuredClass: ConditionClass; held: boolean; waitsForCall: boolean; decidedOnLoad: boolean }): NextStep | null {
  if (classRank(of.class) < classRank('degraded')) return null
  if (of.waitsForCall) return 'call-control-room'
  if (of.class === 'critical' && !of.decidedOnLoad) return 'decide-load-or-outage'
  if (of.held && classRank(of.measuredClass) < classRank('degraded')) return 'second-reading-or-engineer'
  return of.class === 'degraded' ? 'repair-in-outage' : 'repair'
}
