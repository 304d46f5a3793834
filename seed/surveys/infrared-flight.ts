import { defaultPolicy, surfacesOf, trueTemperatureC } from '@/lib/condition'
import { clockMs, conductorRiseK, workdayMs } from '../calendar'
import { shift, metresBetween } from '../ground'
import type { BuiltSection } from '../network'
import { Random } from '../random'
import { ratiosIn, type TrueSplice } from '../splices'

export interface Flight {
  survey: string
  /** A Monday. */
  startsOn: string
  year: number
  /** Share of each circuit's rating that flowed. */
  load: readonly [low: number, high: number]
  windMS: readonly [low: number, high: number]
  ambientC: readonly [low: number, high: number]
  /** Share of the splices that the operator took a picture of. */
  pictured: number
  seed: number
  /** Circuits that it did not get to. */
  notReached: readonly string[]
}

export const FLIGHTS: Flight[] = [
  { survey: 'Infrared flight 2020', startsOn: '2020-07-13', year: 2020.5, load: [0.62, 0.88], windMS: [0.8, 2.4], ambientC: [22, 31], pictured: 0.55, seed: 4400, notReached: ['3410', '2350'] },
  { survey: 'Infrared flight 2023', startsOn: '2023-04-17', year: 2023.3, load: [0.11, 0.24], windMS: [2.6, 5.2], ambientC: [4, 11], pictured: 0.5, seed: 4401, notReached: [] },
]

export interface FlightRow { [field: string]: string | number }

const SPEED_M_S = 18
/** The aircraft flies to the right of the line, as seen from the named end. */
const ASIDE_M = 38

/** The joint's rise as a share of the conductor's: read off the heat balance's sensitivity table. */
const jointShare = (ratio: number) => 0.7 * ratio ** 1.05

export function flightRows(flight: Flight, sections: BuiltSection[], splices: TrueSplice[]): { readings: FlightRow[]; extents: FlightRow[] } {
  const random = new Random(flight.seed)
  const readings: FlightRow[] = []
  const extents: FlightRow[] = []
  sections.forEach((section, n) => {
    const startMs = workdayMs(flight.startsOn, Math.floor(n / 2)) + clockMs(9 + (n % 2) * 3)
    const load = random.between(...flight.load)
    const windMS = random.between(...flight.windMS)
    const ambientC = random.between(...flight.ambientC)
    const currentA = Math.round(load * section.ratingA)
    const here = splices.filter((s) => s.section === section)
    let exceptions = 0
    for (const splice of here) {
      const mean = ratiosIn(splice, flight.year).reduce((a, b) => a + b, 0) / 2
      const riseK = conductorRiseK(load, windMS)
      const jointK = riseK * jointShare(mean)
      const exception = jointK > riseK + 3
      if (!exception && !random.chance(flight.pictured)) continue
      if (exception) exceptions++
      readings.push(picture(flight, splice, random, startMs, readings.length, { currentA, windMS, ambientC, riseK, jointK, exception }))
    }
    extents.push({
      survey: flight.survey, circuit: section.plan.circuit, structure_from: section.structures[0]?.label ?? '',
      structure_to: section.structures[section.structures.length - 1]?.label ?? '', surveyed_on: new Date(startMs).toISOString().slice(0, 10),
      method: 'infrared', result: exceptions ? `${exceptions} exceptions` : 'no exception', line_current_a: currentA,
      ambient_c: ambientC.toFixed(1), wind_m_s: windMS.toFixed(1),
    })
  })
  const reached = (row: FlightRow): boolean => !flight.notReached.includes(String(row.circuit))
  return { readings: readings.filter(reached), extents: extents.filter((e) => reached(e) && !String(e.structure_to).startsWith('T')) }
}

/** The operator left one setting for the whole flight, as operators do. */
const CAMERA = { emissivity: 0.95, reflectedC: -5, band: 'lw' } as const

/** What the camera shows of metal at a temperature: the same signal, read with its own settings. */
function shownC(trueC: number, emissivity: number): number {
  const { reflectedC, band } = CAMERA
  const shown = trueTemperatureC({ apparentC: trueC, emissivity, reflectedC }, { emissivity: CAMERA.emissivity, reflectedC }, band)
  if (!shown.ok) throw new Error(`no camera shows ${trueC} °C of an emissivity of ${emissivity}`)
  return shown.value
}

interface Air { currentA: number; windMS: number; ambientC: number; riseK: number; jointK: number; exception: boolean }

function picture(flight: Flight, splice: TrueSplice, random: Random, startMs: number, n: number, air: Air): FlightRow {
  const { back, ahead } = splice
  const spanM = metresBetween([back.lon, back.lat], [ahead.lon, ahead.lat])
  const north = (ahead.lat - back.lat) * 111_200
  const east = (ahead.lon - back.lon) * 111_320 * Math.cos((back.lat * Math.PI) / 180)
  const [lon, lat] = shift(splice.place,
    (north / spanM) * ASIDE_M + random.normal(0, 6), (-east / spanM) * ASIDE_M + random.normal(0, 6))
  const takenMs = startMs + (splice.stationM / SPEED_M_S) * 1000
  const surfaces = surfacesOf({ takenAtMs: takenMs, afterRepair: false }, { installedAtMs: Date.parse(`${splice.installedYear}-07-01`) }, defaultPolicy)
  return {
    reading_id: `F${String(flight.startsOn).slice(0, 4)}-${String(n + 1).padStart(4, '0')}`, survey: flight.survey,
    taken_at: new Date(takenMs).toISOString(), lon, lat, gnss_accuracy_m: 9, position_of: 'platform',
    platform: 'helicopter', kind: 'infrared', circuit: splice.section.plan.circuit, section: splice.section.section, phase: splice.phase,
    position: splice.position, circuit_side: splice.circuitSide, subconductor: splice.subconductor, line_current_a: air.currentA,
    current_30min_a: Math.round(air.currentA * random.between(0.95, 1.05)),
    splice_temp_c: shownC(air.ambientC + air.jointK + random.normal(0, 0.5), surfaces.barrel.emissivity).toFixed(1),
    conductor_temp_c: shownC(air.ambientC + air.riseK + random.normal(0, 0.5), surfaces.conductor.emissivity).toFixed(1), reference_kind: 'own-conductor',
    ambient_c: air.ambientC.toFixed(1), wind_m_s: air.windMS.toFixed(1), sun: 'diffuse', rain_1h: 'no', emissivity: CAMERA.emissivity, reflected_c: CAMERA.reflectedC,
    distance_m: Math.round(Math.hypot(metresBetween([lon, lat], splice.place), random.between(4, 14))), view_angle_deg: Math.round(random.between(10, 40)), ifov_mrad: 0.34, band: CAMERA.band,
    crew: 'Air crew', instrument: 'IR camera 1', note: air.exception ? 'exception' : '',
  }
}
