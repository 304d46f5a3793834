import { chancesOf, classFrom, rankOf, type Chances } from './classify'
import type { Context } from './context'
import { flightsOf } from './flights'
import type { InfraredBelief } from './fusion'
import { YEAR_MS } from './limits'
import type { Policy } from './policy'
import { aged, fuse, inConflict, type Belief } from './posterior'
import type { Signs } from './side'
import type { InfraredNote, MeasuredClass } from './types'

/** What the pictures of one splice say together. */
export interface InfraredState {
  /** The one that counts; null where none was conclusive. */
  counts: InfraredBelief | null
  /** A flight that `counts` contradicts and outweighs. */
  against: InfraredBelief | null
  /** Each flight with a conclusive picture by itself, newest first. */
  flights: InfraredBelief[]
}

export const NO_PICTURES: InfraredState = { counts: null, against: null, flights: [] }

/**
 * Conclusive pictures of one flight share its wind, its load and its model, so the surest of them speaks for the flight and they are not
 * averaged; of two alike the hotter. The newest flight counts. Where the one before it was worse and both cannot be right, the worse stands:
 * splices do not heal.
 */
export function infraredState(notes: readonly InfraredNote[], asOfMs: number, policy: Policy): InfraredState {
  if (!notes.some(isConclusive)) return NO_PICTURES
  const flights: InfraredBelief[] = []
  for (const flight of flightsOf(notes, policy)) {
    const found = surest(flight)
    if (found) flights.push(beliefOf(found, flight, asOfMs, policy))
  }
  const [newest = null, before] = flights
  if (newest && before && before.belief.mean > newest.belief.mean && inConflict(newest.belief, before.belief, policy)) {
    return { counts: before, against: newest, flights }
  }
  return { counts: newest, against: null, flights }
}

/** A picture that tells k, with nothing wrong with it. */
export const isConclusive = (note: InfraredNote): boolean => note.k !== undefined && note.inconclusive.length === 0

function surest(flight: readonly InfraredNote[]): InfraredNote | null {
  let found: InfraredNote | null = null
  for (const note of flight) {
    if (!isConclusive(note)) continue
    const by = found ? (found.uLnK ?? Infinity) - (note.uLnK ?? Infinity) : 1
    if (by > 0 || (by === 0 && (note.k ?? 0) > (found?.k ?? 0))) found = note
  }
  return found
}

function beliefOf(note: InfraredNote, flight: readonly InfraredNote[], asOfMs: number, policy: Policy): InfraredBelief {
  const measured: Belief = { mean: Math.log(note.k ?? Number.NaN), sd: Math.max(note.uLnK ?? 0, policy.radiometry.leastULnK) }
  const years = note.takenAtMs === undefined ? 0 : (asOfMs - note.takenAtMs) / YEAR_MS
  return {
    measured, belief: aged(measured, years, policy.ageing), takenAtMs: note.takenAtMs,
    windy: Math.max(note.effectiveWindMS ?? 0, note.windMS ?? 0) > policy.infrared.windMS,
    readingIds: flight.filter(isConclusive).map(({ readingId }) => readingId),
  }
}

/** The splice by infrared alone: no side, and so no better than the mean of its interfaces. */
export interface ByInfrared {
  class: MeasuredClass
  pOver: Chances
  belief: Belief
}

/** Infrared where the class rests on it. */
export interface GoverningInfrared {
  found: ByInfrared
  picture: InfraredBelief
}

/** The class that a conclusive picture gives where resistance gives none; in too much wind never over degraded. */
export function classByInfrared({ belief: measured, windy }: InfraredBelief, signs: Signs, context: Context): ByInfrared {
  const belief = fuse(context.prior, [measured])
  const pOver = chancesOf(belief, context.edges, signs.firm)
  const found = classFrom(pOver, context.policy.pRules)
  return { class: windy && rankOf(found) > rankOf('degraded') ? 'degraded' : found, pOver, belief }
}

/** What was seen elsewhere and what pictures that prove nothing show all the same. */
export function signsOf(firm: Signs['firm'], notes: readonly InfraredNote[], policy: Policy): Signs {
  const hot = hotWithoutMeasure(notes, policy)
  if (hot.length === 0) return { firm, windy: null }
  const { hotOdds } = policy.infrared
  if (hot.some((note) => !note.inconclusive.includes('wind'))) return { firm: { overK: firm.overK, odds: firm.odds * hotOdds }, windy: null }
  return { firm, windy: { overK: firm.overK, odds: hotOdds } }
}

/** Hot pictures of flights that tell no k: where one is told, the same heat would count twice. A hot one counts once however often it was taken. */
function hotWithoutMeasure(notes: readonly InfraredNote[], policy: Policy): InfraredNote[] {
  if (!notes.some(({ hot }) => hot)) return []
  if (!notes.some(isConclusive)) return notes.filter(({ hot }) => hot)
  return flightsOf(notes, policy).filter((flight) => !flight.some(isConclusive)).flat().filter(({ hot }) => hot)
}
