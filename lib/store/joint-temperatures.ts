import type { Assessment, Policy, SpliceKind } from '@/lib/condition'
import { isWithheld, type CarriedK } from '@/lib/condition/loading/carried-k'
import { sunOfSky, type Sky } from '@/lib/condition/loading/flight'
import { currentAtA, steadyTemperature } from '@/lib/condition/heat/balance'
import { heatedJoint, sectionBodies, type SectionOfLine } from '@/lib/condition/loading/line-joint'
import { ownTemperature } from '@/lib/condition/loading/own-temperature'
import { INFRARED_SEES_MEAN, RATIO_AT_LEAST, RATIO_SAYS_NOTHING } from '@/lib/condition/no-limit'
import { elevationOf, ratingWeatherOf } from '@/lib/condition/rating-weather'
import { NO_TEMPERATURE_WHILE_HELD } from '@/lib/condition/words'
import type { ReadingJson, SpliceDetail } from '@/lib/contract/contract'
import type { JointTemperaturesJson } from '@/lib/contract/temperatures'

type Weather = ReturnType<typeof ratingWeatherOf>

/** What stands behind a temperature: the splice with its section, as the sheet has it. */
export type Warmed = Pick<SpliceDetail, 'kind' | 'fitting_type' | 'barrel_od_mm' | 'conductor' | 'subconductors' | 'rating_a' | 'max_operating_c' | 'elevation_m' | 'last_load'>

/** The newest weather noted at the splice: air and wind, and the sky where somebody noted it, else the sun on it. */
function surveyWeather(readings: readonly ReadingJson[], sectionM: number | null, policy: Policy): { at: string; weather: Weather } | null {
  const noted = readings.flatMap(({ taken_at: at, fields: { ambient_c: ambientC, wind_m_s: windMS, sun } }) =>
    at !== null && typeof ambientC === 'number' && typeof windMS === 'number' ? [{ at, ambientC, windMS, sun }] : [])
  const newest = noted.sort((a, b) => a.at.localeCompare(b.at)).at(-1)
  if (!newest) return null
  const sky: Sky = newest.sun === 'none' || newest.sun === 'diffuse' ? newest.sun : 'direct'
  return {
    at: newest.at,
    weather: { ambientC: newest.ambientC, windMS: newest.windMS, windAngleDeg: 90, sunWPerM2: sunOfSky(sky, policy), elevationM: elevationOf(sectionM, policy) },
  }
}

/** Load and weather older than this tell nothing of the present. */
const PRESENT_MS = 3_600_000

const isPresent = (at: string, nowMs: number): boolean => nowMs - Date.parse(at) < PRESENT_MS

/**
 * How hot a splice is at the last known load of its section, and at the section's rating. Both in rating weather: an old survey's wind would
 * make a splice look cool beside its limit. Only where load and weather are of this hour is it the weather noted at the splice.
 */
export function temperaturesOf(
  splice: Warmed, ratio: CarriedK & { held: boolean; raisedBy: Assessment['raisedBy']; atLeast: boolean }, readings: readonly ReadingJson[], policy: Policy, nowMs: number,
): JointTemperaturesJson {
  const section = {
    conductorCode: splice.conductor, subconductors: splice.subconductors, ratingA: splice.rating_a, maxOperatingC: splice.max_operating_c,
    elevationM: splice.elevation_m,
  }
  const rest = { upper_share: policy.limit.upperShare, ...ratingOf(section, splice.barrel_od_mm, policy) }
  if (isWithheld(ratio)) return { at_load: null, no_at_load: NO_TEMPERATURE_WHILE_HELD, at_rating: null, no_at_rating: NO_TEMPERATURE_WHILE_HELD, ...rest }
  if (ratio.basis === 'contradicted') {
    const why = `Cannot be computed: ${RATIO_SAYS_NOTHING[ratio.raisedBy ?? 'heat']}.`
    return { at_load: null, no_at_load: why, at_rating: null, no_at_rating: why, ...rest }
  }
  // What its ratio lies under is not known: no current is given for it either, and for the same reason.
  const unbounded = ratio.basis === 'read' && !ratio.figure ? INFRARED_SEES_MEAN : ratio.basis === 'unread' && ratio.atLeast ? RATIO_AT_LEAST : null
  if (unbounded !== null) return { at_load: null, no_at_load: unbounded, at_rating: null, no_at_rating: unbounded, ...rest }
  const drawn = heatedJoint({ ...ratio, kind: splice.kind as SpliceKind, fittingType: splice.fitting_type, barrelOdMm: splice.barrel_od_mm }, section, policy)
  const joint = typeof drawn !== 'string' && ratio.basis === 'unread' ? null : drawn
  const rating = ratingWeatherOf(policy, section.elevationM)
  const noted = surveyWeather(readings, section.elevationM, policy)
  const present = noted && splice.last_load && isPresent(noted.at, nowMs) && isPresent(splice.last_load.taken_at, nowMs) ? noted : null
  const at = (lineA: number | null, noLoad: string, weather: Weather, weatherAt: string | null) => {
    const found = ownTemperature(joint, lineA, noLoad, weather)
    if (!found.ok) return { reckoned: null, why: `Cannot be computed: ${found.error}.` }
    const { believedC, upperC } = found.value
    return {
      reckoned: {
        line_a: found.value.lineA, believed_c: believedC, upper_c: upperC, ambient_c: weather.ambientC, wind_m_s: weather.windMS, weather_at: weatherAt,
      },
      why: null,
    }
  }
  const atLoad = at(splice.last_load?.current_a ?? null, 'no load of the section is known. Ask the control room', present?.weather ?? rating, present?.at ?? null)
  const full = at(splice.rating_a, 'the rating of the section is not on record. Ask line engineering', rating, null)
  return { at_load: atLoad.reckoned, no_at_load: atLoad.why, at_rating: full.reckoned, no_at_rating: full.why, ...rest }
}

/** How the section's rating stands to its conductor's own temperature limit in rating weather, both ways round. */
function ratingOf(section: SectionOfLine, barrelOdMm: number | null, policy: Policy): Pick<JointTemperaturesJson, 'edges_at_a' | 'conductor_at_rating_c'> {
  const { maxOperatingC, ratingA } = section
  const weather = ratingWeatherOf(policy, section.elevationM)
  const bodies = sectionBodies(section, barrelOdMm, policy)
  if (typeof bodies === 'string') return { edges_at_a: null, conductor_at_rating_c: null }
  const shares = Math.max(1, section.subconductors)
  const full = maxOperatingC === null ? null : currentAtA(bodies.conductor, maxOperatingC, weather)
  const rated = ratingA === null ? null : steadyTemperature(bodies.conductor, ratingA / shares, weather)
  return { edges_at_a: full?.ok ? full.value.currentA * shares : null, conductor_at_rating_c: rated?.ok && rated.value.kind === 'steady' ? rated.value.temperatureC : null }
}
