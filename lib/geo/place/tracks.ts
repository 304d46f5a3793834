import { shortDistanceM } from '../earth/geodesic'
import type { Network } from '../network/network'
import type { PlacingOptions, PointToPlace } from '../types'
import type { Gathered } from './gather'
import type { Given } from './given'

/**
 * Readings of one survey, crew and instrument with the same kind of position; of a ground crew, those that name their circuit and
 * those that do not apart.
 */
export interface Stream {
  key: string
  platform: boolean
  /** Readings in time order; tracks are runs of them. */
  readings: Int32Array
  /** First reading of each track in `readings`, and the count at the end. */
  trackStart: Int32Array
}

const DAY_MS = 86_400_000
const MS_PER_DEGREE = DAY_MS / 360

/** Number of each reading's pass: its survey, crew and instrument. */
export function passNumbers(points: readonly PointToPlace[]): Int32Array {
  const numbers = new Map<string, number>()
  const passes = new Int32Array(points.length)
  for (let i = 0; i < points.length; i++) {
    const { survey = '', crew = '', instrument = '' } = points[i]!
    const key = `${survey}\u0001${crew}\u0001${instrument}`
    let number = numbers.get(key)
    if (number === undefined) numbers.set(key, (number = numbers.size))
    passes[i] = number
  }
  return passes
}

const aircraft = ({ platform }: PointToPlace): boolean => platform === 'helicopter' || platform === 'uncrewed'

/**
 * Streams with their tracks. A reading without time or candidate, or with a fault, is on none. Aircraft tracks break at a
 * pause or a jump; ground tracks at a change of day, by the sun at their longitude, and where nobody could have driven.
 *
 * On the ground a crew may visit both circuits of a corridor in turn, and a row that leaves its circuit blank among rows that name
 * theirs is more likely on the other one: what its neighbours name says nothing for it, so the two kinds are never one track. A platform
 * flies one circuit, and its rows share what one of them names.
 */
export function findTracks({ network, points, passes, options }: Given, gathered: Gathered): Stream[] {
  const { candidates: { start }, hasPosition, fault } = gathered
  const members = new Map<number, number[]>()
  for (let i = 0; i < points.length; i++) {
    const point = points[i]!
    if (point.takenAtMs === undefined || hasPosition[i] === 0 || fault[i] || start[i] === start[i + 1]) continue
    const kind = point.positionOf === 'platform' ? 1 : namesCircuit(network, point, gathered, i) ? 2 : 0
    const key = 3 * passes[i]! + kind
    const known = members.get(key)
    if (known) known.push(i)
    else members.set(key, [i])
  }
  return [...members.values()].map((readings) => streamOf(points, Int32Array.from(readings), options))
}

/** Whether the reading itself says which circuit it is on; structures say it only where they leave another one in reach out. */
function namesCircuit({ sections }: Network, point: PointToPlace, { candidates, declaration }: Gathered, i: number): boolean {
  let named: number | undefined
  let leavesOut = false
  for (let c = candidates.start[i]!; c < candidates.start[i + 1]!; c++) {
    const { circuitId } = sections[candidates.section[c]!]!
    if (candidates.declared[c] !== 1) leavesOut = true
    else if (named !== undefined && named !== circuitId) return false
    else named = circuitId
  }
  return named !== undefined && (leavesOut || point.circuit !== undefined || declaration[i]!.by !== 'structures')
}

function streamOf(points: readonly PointToPlace[], readings: Int32Array, options: PlacingOptions): Stream {
  readings.sort((a, b) => points[a]!.takenAtMs! - points[b]!.takenAtMs! || a - b)
  const starts = [0]
  for (let at = 1; at < readings.length; at++) {
    if (breaks(points[readings[at - 1]!]!, points[readings[at]!]!, options)) starts.push(at)
  }
  starts.push(readings.length)
  const { survey = '', crew = '', instrument = '', positionOf } = points[readings[0]!]!
  return {
    key: [survey, crew, instrument, positionOf].filter((name) => name !== '').join(' · '),
    platform: positionOf === 'platform', readings, trackStart: Int32Array.from(starts),
  }
}

/** Whether two readings that follow each other cannot belong to one track. */
export function breaks(before: PointToPlace, after: PointToPlace, options: PlacingOptions): boolean {
  const pauseMs = after.takenAtMs! - before.takenAtMs!
  const jumpM = shortDistanceM(before.lon!, before.lat!, after.lon!, after.lat!)
  if (aircraft(before) || aircraft(after)) return pauseMs > options.aircraftBreakMs || jumpM > options.aircraftBreakM
  if (solarDay(before.takenAtMs!, before.lon!) !== solarDay(after.takenAtMs!, before.lon!)) return true
  const surelyM = jumpM - 3 * Math.hypot(before.sigmaM, after.sigmaM)
  return surelyM > 0 && surelyM > (options.groundSpeedMS * pauseMs) / 1000
}

/** Crews work by daylight: a day of UTC would cut an afternoon in the Rockies in two. */
const solarDay = (takenAtMs: number, lonDeg: number): number => Math.floor((takenAtMs + lonDeg * MS_PER_DEGREE) / DAY_MS)
