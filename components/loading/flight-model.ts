import { alongLineOf } from '@/lib/condition/body-of-splice'
import { conductorByCode } from '@/lib/condition/conductor-table'
import type { Refusal } from '@/lib/condition/heat/ranges'
import { clearSunWPerM2 } from '@/lib/condition/infrared-sun'
import { coarsestIfovMrad, flightVerdict, isMarginal, oneSidedVerdict, sunOfSky, type FlightVerdict, type OneSided, type SectionToFly } from '@/lib/condition/loading/flight'
import { sectionBodies } from '@/lib/condition/loading/line-joint'
import type { Policy } from '@/lib/condition/policy'
import { elevationOf } from '@/lib/condition/rating-weather'
import type { SectionOfLineJson } from '@/lib/contract/loading'
import type { FlightInputs } from './flight-address'

/** One section before a flight. */
export interface FlightRow {
  of: SectionOfLineJson
  /** Per phase; null: not known. */
  currentA: number | null
  standing:
    /** A bad splice would show, and from the distance that is planned. */
    | 'fly'
    /** It would show, but not from so far with this lens. */
    | 'nearer'
    /** By so little, or short of it by so little, that the load of the hour decides. */
    | 'marginal'
    | 'do-not-fly'
    | 'load-unknown'
    /** Its conductor is not known, or a value is out of range. */
    | 'not-reckoned'
  verdict: FlightVerdict | null
  /** The same for a splice that is bad on one side alone. */
  oneSided: OneSided | null
  refusal: Refusal | null
  /** On the line. */
  sunWPerM2: number
  /** One pixel of a lens that would do from the planned distance, mrad; null: no distance was written. */
  ifovForDistanceMrad: number | null
  /** When within the day of its last known load it carried enough in this wind and sky; oldest first, ms since 1970 UTC. */
  enoughAtMs: number[]
}

const RANK: Record<FlightRow['standing'], number> = { 'fly': 0, 'nearer': 1, 'marginal': 2, 'do-not-fly': 3, 'load-unknown': 4, 'not-reckoned': 5 }

type Asked = Pick<FlightInputs, 'air' | 'wind' | 'sky' | 'at' | 'load' | 'share' | 'netd' | 'ifov' | 'dist'>

/** Every section, those worth a flight first, then those that lack least. */
export function flightRows(sections: readonly SectionOfLineJson[], asked: Asked, policy: Policy): FlightRow[] {
  return sections.map((of) => rowOf(of, asked, policy)).sort((a, b) => RANK[a.standing] - RANK[b.standing] || lacking(a) - lacking(b) || a.of.circuit.localeCompare(b.of.circuit))
}

/** How many times its load a section would need; under 1 where it has enough. */
const lacking = ({ verdict, currentA }: FlightRow): number => (verdict?.neededLineA == null || !currentA ? Infinity : verdict.neededLineA / currentA)

function rowOf(of: SectionOfLineJson, asked: Asked, policy: Policy): FlightRow {
  const fullA = asked.load === 'rating' ? of.rating_a : of.last_load?.current_a ?? null
  const currentA = fullA === null ? null : (fullA * asked.share) / 100
  const clear = asked.at && clearSunWPerM2(asked.at.getTime(), { latitudeDeg: of.lat, longitudeDeg: of.lon, lineAzimuthDeg: of.azimuth_deg, elevationM: elevationOf(of.elevation_m, policy) })
  const forecast = { ambientC: asked.air, windMS: asked.wind, sky: asked.sky, clearSunWPerM2: clear ?? undefined, elevationM: of.elevation_m }
  const row: FlightRow = {
    of, currentA, standing: 'not-reckoned', verdict: null, oneSided: null, refusal: null, sunWPerM2: sunOfSky(asked.sky, policy, forecast.clearSunWPerM2),
    ifovForDistanceMrad: null, enoughAtMs: [],
  }
  const bodies = bodiesOf(of, policy)
  if (bodies === null) return row
  const section = { bodies, subconductors: Math.max(1, of.subconductors), ratingA: of.rating_a }
  // What it would take is known without a load too.
  const camera = { netdK: asked.netd, ifovMrad: asked.ifov }
  const found = flightVerdict(section, currentA ?? 0, forecast, camera, policy)
  if (!found.ok) return { ...row, refusal: found.error }
  const verdict = found.value
  const narrowestMm = Math.min(...bodies.map(({ barrel }) => barrel.diameterM)) * 1000
  const tooFar = asked.dist !== null && asked.dist > verdict.greatestDistanceM
  const oneSided = oneSidedVerdict(section, of.max_operating_c, currentA ?? 0, forecast, camera, policy)
  const standing = currentA === null ? 'load-unknown' : isMarginal(verdict) ? 'marginal' : !verdict.wouldShow ? 'do-not-fly' : tooFar ? 'nearer' : 'fly'
  const { neededLineA } = verdict
  return {
    ...row, standing, verdict, oneSided: oneSided.ok ? oneSided.value : null, ifovForDistanceMrad: asked.dist === null ? null : coarsestIfovMrad(narrowestMm, asked.dist, policy),
    enoughAtMs: neededLineA === null ? [] : of.day_loads.filter(({ current_a: loadA }) => loadA >= neededLineA).map(({ taken_at: at }) => Date.parse(at)),
  }
}

/** A body for each size of barrel on the section, and a typical one where some are not on record, or none is. Surfaces as pictures are judged with. */
function bodiesOf(of: SectionOfLineJson, policy: Policy): SectionToFly['bodies'] | null {
  const facts = { conductorCode: of.conductor, subconductors: of.subconductors, ratingA: of.rating_a, maxOperatingC: of.max_operating_c, elevationM: of.elevation_m }
  const { emissivity } = policy.radiometry
  const surface = { emissivity, absorptivity: emissivity }
  const sizes: (number | null)[] = of.barrels_od_mm.length === 0 || of.barrels_unknown > 0 ? [...ends(of.barrels_od_mm), null] : ends(of.barrels_od_mm)
  const bodies = sizes.map((size) => sectionBodies(facts, size, policy, surface))
  if (bodies.some((one) => typeof one === 'string')) return null
  const conductor = of.conductor === null ? null : conductorByCode(of.conductor)
  const splice = { kind: 'full-tension splice' as const, subconductors: of.subconductors }
  return bodies.filter((one) => typeof one !== 'string')
    .map((one) => (policy.radiometry.heatAlongLine ? { ...one, along: alongLineOf({ conductor, facts: splice, policy }, one) } : one))
}

/** The smallest loses its pixels first, the largest runs coolest: those between decide nothing. */
const ends = (sizes: readonly number[]): number[] => [...new Set(sizes.length === 0 ? [] : [Math.min(...sizes), Math.max(...sizes)])]
