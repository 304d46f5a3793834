import type { Context } from './context'
import type { InfraredBelief } from './fusion'
import { classByInfrared } from './infrared-belief'
import type { Side } from './interfaces'
import { YEAR_MS } from './limits'
import { measure, type Measured, type SideMeasurement } from './measure'
import { aged, disagreement, inConflict } from './posterior'
import { sessionsOf } from './series'
import { measuredBelief, worstOfSides, type Signs } from './side'
import type { ResistanceEvidence, VisitSummary } from './types'
import { isAtLeast } from './within-crimp'

/** One session as measured: its visits beside each other. */
export interface MeasuredSession {
  visits: { readings: readonly ResistanceEvidence[]; measured: Measured }[]
  mixedCurrent: boolean
}

/** Resistance readings, oldest first, as sessions, newest first. */
export const measureSessions = (readings: readonly ResistanceEvidence[], context: Context): MeasuredSession[] =>
  sessionsOf(readings, context.policy).map((session) => ({
    mixedCurrent: session.mixedCurrent,
    visits: session.visits.map((visit) => ({ readings: visit.readings, measured: measure(visit.readings, context) })),
  }))

/** A side of one session, and the reading that it contradicts, if any. */
export interface ChosenSide {
  side: SideMeasurement
  against: SideMeasurement | null
}

/**
 * A side where several visits of a session measured it: one with a measured conductor before one that needs the table,
 * then the worse. Nothing is averaged across instruments or kinds of test current.
 */
export function sideOfSession(session: MeasuredSession, name: Side, context: Context): ChosenSide | null {
  let chosen: SideMeasurement | null = null
  let against: SideMeasurement | null = null
  for (const { measured } of session.visits) {
    const candidate = measured.sides.find(({ side }) => side === name)
    if (!candidate) continue
    if (!chosen) {
      chosen = candidate
      continue
    }
    const better = preferred(chosen, candidate)
    const other = better === chosen ? candidate : chosen
    if (inConflict(measuredBelief(better), measuredBelief(other), context.policy)) against = other
    chosen = better
  }
  return chosen && { side: chosen, against }
}

function preferred(a: SideMeasurement, b: SideMeasurement): SideMeasurement {
  const aMeasured = a.reference !== 'table'
  if (aMeasured !== (b.reference !== 'table')) return aMeasured ? a : b
  return b.ratio > a.ratio ? b : a
}

/** How the newest reading of a side stands to the one before it. */
export interface Change {
  from: SideMeasurement
  conflict: boolean
  fell: boolean
}

/**
 * A lower reading after a higher one without a repair: splices do not heal, so one of the two is wrong or the electrodes
 * moved. For a conflict the earlier reading first loses certainty with the years between. Null where nothing fell.
 * @param isWorse whether this is the worse side of its session: where a session did not say which side is which, only the
 *   worse ones of both are compared, or a swap of the sides would read as a fall
 */
export function changeSince(side: SideMeasurement, isWorse: boolean, earlier: readonly MeasuredSession[], context: Context): Change | null {
  const { policy } = context
  for (const session of earlier) {
    const from = comparable(side, isWorse, session, context)
    if (!from) continue
    const now = measuredBelief(side)
    const years = side.takenAtMs === undefined || from.takenAtMs === undefined ? 0 : (side.takenAtMs - from.takenAtMs) / YEAR_MS
    const before = { mean: measuredBelief(from).mean, sd: aged(measuredBelief(from), years, policy.ageing).sd }
    if (now.mean >= before.mean) return null
    const conflict = inConflict(now, before, policy)
    const fell = disagreement(now, measuredBelief(from)) > policy.conflict.fallSigmas ** 2
    return conflict || fell ? { from, conflict, fell } : null
  }
  return null
}

/** What a side read before it rose faster than contacts age: within the shortest time of a trend, and beyond the doubt of both readings. */
export function jumpedFrom(side: SideMeasurement, isWorse: boolean, earlier: readonly MeasuredSession[], context: Context): SideMeasurement | null {
  const { policy } = context
  for (const session of earlier) {
    const from = comparable(side, isWorse, session, context)
    if (!from) continue
    if (side.takenAtMs === undefined || from.takenAtMs === undefined || side.takenAtMs - from.takenAtMs >= policy.trend.leastSpanYears * YEAR_MS) return null
    const [now, before] = [measuredBelief(side), measuredBelief(from)]
    return now.mean - before.mean > LEAST_JUMP_LN && inConflict(now, before, policy) ? from : null
  }
  return null
}

/** Less than half as much again is left to the trend (our own choice). */
const LEAST_JUMP_LN = Math.log(1.5)

/** The same side; where sides were not declared at either time, the worse one of the earlier session for the worse one now. */
function comparable(side: SideMeasurement, isWorse: boolean, session: MeasuredSession, context: Context): SideMeasurement | null {
  const same = sideOfSession(session, side.side, context)?.side ?? null
  if (same && same.sidesDeclared && side.sidesDeclared) return same
  if (!isWorse || (same === null && side.sidesDeclared)) return null
  const other = sideOfSession(session, side.side === 'A' ? 'B' : 'A', context)?.side ?? null
  if (!same || !other) return same ?? other
  return same.ratio >= other.ratio ? same : other
}

/** The last visits by themselves, oldest first. */
export function visitSummaries(sessions: readonly MeasuredSession[], context: Context, most = 8): VisitSummary[] {
  const summaries: VisitSummary[] = []
  for (const session of sessions) {
    for (let i = session.visits.length - 1; i >= 0 && summaries.length < most; i--) {
      const visit = session.visits[i]
      if (visit) summaries.push(summaryOf(visit.readings, visit.measured, context))
    }
  }
  return summaries.reverse()
}

/** True where every interface of the fitting gave a usable ratio. */
export const isComplete = (measured: Measured, context: Context): boolean =>
  measured.sides.length >= context.interfaces.count && measured.unproved.length === 0

function summaryOf(readings: readonly ResistanceEvidence[], measured: Measured, context: Context): VisitSummary {
  const worst = worstOfSides(measured.sides, context)
  const newest = readings[readings.length - 1]
  return {
    takenAtMs: newest?.takenAtMs,
    survey: newest?.survey,
    instrument: readings.find(({ instrument }) => instrument !== undefined)?.instrument,
    class: worst?.class,
    ratio: worst?.side.ratio,
    sides: measured.sides.map((of) => {
      const { side, ratio, uLnK, sidesDeclared } = of
      return isAtLeast(of) ? { side, ratio, uRatio: ratio * uLnK, sidesDeclared, atLeast: true } : { side, ratio, uRatio: ratio * uLnK, sidesDeclared }
    }),
    complete: isComplete(measured, context),
    readingIds: readings.map(({ readingId }) => readingId),
  }
}

/** Conclusive flights among the visits, oldest first: each may hold a class by what it showed and, being no reading of every interface, clears none. */
export function withFlights(visits: VisitSummary[], flights: readonly InfraredBelief[], context: Context, most = 8): VisitSummary[] {
  if (flights.length === 0) return visits
  const all = [...visits, ...flights.map((flight) => flightSummary(flight, context))]
  return all.sort((a, b) => (a.takenAtMs ?? -Infinity) - (b.takenAtMs ?? -Infinity)).slice(-most)
}

function flightSummary(flight: InfraredBelief, context: Context): VisitSummary {
  const own = classByInfrared({ ...flight, belief: flight.measured }, NO_SIGNS, context)
  return {
    source: 'infrared', takenAtMs: flight.takenAtMs, class: own.class, ratio: Math.exp(flight.measured.mean), complete: false, sides: [],
    readingIds: flight.readingIds,
  }
}

const NO_SIGNS: Signs = { firm: { overK: 1, odds: 1 }, windy: null }
