import geographic from 'geographiclib-geodesic'
import type { PointToPlace } from '@/lib/geo'
import { groupBy } from './group-by'
import type { DoubleCircuits, TrueSplice } from './double-circuits'
import type { Random } from './random'
import type { TrialLine } from './read-network'

const { WGS84 } = geographic.Geodesic
const SIGMA_M = 4
const PAUSE_MS = 25 * 60_000
const DAY_MS = 86_400_000

/** Along one circuit and then the other; both by pairs; both as they come along the line; or without usable times. */
export type Order = 'along' | 'in-turn' | 'mixed' | 'shuffled' | 'untimed'

export interface SurveyPlan {
  order: Order
  /** Readings of a crew's day, one track on the ground; 14 unless told. */
  readingsADay?: number
  /** Readings on the left circuit name it; those on the right one leave it blank. */
  leftNamed?: true
  /** Error that all readings of a day share, metres, in a direction of its own. */
  sharedErrorM?: number
}

export interface TakenReading {
  point: PointToPlace
  truth: TrueSplice
}

/** One reading of every splice; circuit (unless the plan says so), structures and splice_id stay blank, the phase is given. */
export function simulateSurvey(world: DoubleCircuits, plan: SurveyPlan, random: Random): TakenReading[] {
  const days = world.splices.flatMap(([left, right]) => daysOf(left, right, plan.order, plan.readingsADay ?? 14))
  const readings: TakenReading[] = []
  days.forEach((day, number) => {
    const azimuth = random.between(0, 360)
    day.forEach((truth, step) => {
      const [lon, lat] = observed(world.lines[truth.line]!, truth, plan.sharedErrorM ?? 0, azimuth, random)
      const point: PointToPlace = {
        index: readings.length,
        lon,
        lat,
        sigmaM: SIGMA_M,
        positionOf: 'target',
        platform: 'ladder',
        survey: 'trial',
        crew: `crew ${number % 3}`,
        instrument: 'one',
        phase: truth.phase!,
      }
      if (plan.leftNamed && truth.lateralOffsetM < 0) point.circuit = world.network.sections[truth.sectionId - 1]!.circuit
      if (plan.order !== 'untimed') point.takenAtMs = Date.UTC(2024, 0, 1, 2) + Math.floor(number / 3) * DAY_MS + step * PAUSE_MS
      readings.push({ point, truth })
    })
  })
  return readings
}

/** What a crew reads on each day: never fewer than five splices, never two lines. */
function daysOf(left: TrueSplice[], right: TrueSplice[], order: Order, aDay: number): TrueSplice[][] {
  if (order === 'in-turn') {
    const pairs = Array.from({ length: Math.max(left.length, right.length) }, (_, k) =>
      [left[k], right[k]].filter((splice) => splice !== undefined),
    )
    return chunks(pairs.flat(), aDay)
  }
  if (order === 'mixed')
    return chunks(
      [...left, ...right].sort((a, b) => a.lineDistanceM - b.lineDistanceM),
      aDay,
    )
  return [...chunks(left, aDay), ...chunks(right, aDay)]
}

function chunks(splices: TrueSplice[], aDay: number): TrueSplice[][] {
  const count = Math.max(Math.floor(splices.length / aDay), 1)
  const size = Math.ceil(splices.length / count)
  const days = Array.from({ length: count }, (_, k) => splices.slice(k * size, (k + 1) * size)).filter((day) => day.length > 0)
  const last = days.at(-1)
  if (days.length > 1 && last && last.length < 5) days[days.length - 2]!.push(...days.pop()!)
  return days
}

/** The true place, built with an independent geodesic library: along the centreline, then square to it, then the error. */
function observed({ section }: TrialLine, truth: TrueSplice, sharedM: number, sharedAzimuth: number, random: Random): [number, number] {
  const { lonLat, distancesM } = section
  let piece = 0
  while (piece < distancesM.length - 2 && distancesM[piece + 1]! <= truth.lineDistanceM) piece++
  const line = WGS84.Inverse(lonLat[2 * piece + 1]!, lonLat[2 * piece]!, lonLat[2 * piece + 3]!, lonLat[2 * piece + 2]!)
  const along = WGS84.Direct(lonLat[2 * piece + 1]!, lonLat[2 * piece]!, line.azi1!, truth.lineDistanceM - distancesM[piece]!)
  const aside = WGS84.Direct(along.lat2!, along.lon2!, along.azi2! + 90, truth.lateralOffsetM)
  const shared = WGS84.Direct(aside.lat2!, aside.lon2!, sharedAzimuth, sharedM)
  const north = WGS84.Direct(shared.lat2!, shared.lon2!, 0, SIGMA_M * random.normal())
  const east = WGS84.Direct(north.lat2!, north.lon2!, 90, SIGMA_M * random.normal())
  return [east.lon2!, east.lat2!]
}

/** The same readings with their times dealt out anew within each crew. */
export function shuffleTimes(readings: readonly TakenReading[], random: Random): void {
  for (const own of groupBy(readings, ({ point }) => point.crew).values()) {
    const times = own.map(({ point }) => point.takenAtMs!)
    for (let i = times.length - 1; i > 0; i--) {
      const j = Math.floor(random.next() * (i + 1))
      ;[times[i], times[j]] = [times[j]!, times[i]!]
    }
    own.forEach(({ point }, i) => {
      point.takenAtMs = times[i]!
    })
  }
}
