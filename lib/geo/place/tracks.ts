import { shortDistanceM } from '../earth/geodesic'
import type { PlacingOptions, PointToPlace } from '../types'
import type { Gathered } from './gather'

/** Readings of one survey, crew and instrument with the same kind of position. */
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
 */
export function findTracks(points: readonly PointToPlace[], gathered: Gathered, passes: Int32Array, options: PlacingOptions): Stream[] {
  const members = new Map<number, number[]>()
  points.forEach((point, i) => {
    if (point.takenAtMs === undefined || gathered.hasPosition[i] === 0 || gathered.fault[i]) return
    if (gathered.candidates.start[i] === gathered.candidates.start[i + 1]) return
    const key = 2 * passes[i]! + (point.positionOf === 'platform' ? 1 : 0)
    const known = members.get(key)
    if (known) known.push(i)
    else members.set(key, [i])
  })
  return [...members.values()].map((readings) => {
    const ordered = Int32Array.from(readings).sort((a, b) => points[a]!.takenAtMs! - points[b]!.takenAtMs! || a - b)
    const starts = [0]
    for (let at = 1; at < ordered.length; at++) {
      if (breaks(points[ordered[at - 1]!]!, points[ordered[at]!]!, options)) starts.push(at)
    }
    starts.push(ordered.length)
    const { survey = '', crew = '', instrument = '', positionOf } = points[ordered[0]!]!
    const key = [survey, crew, instrument, positionOf].filter((name) => name !== '').join(' · ')
    return { key, platform: positionOf === 'platform', readings: ordered, trackStart: Int32Array.from(starts) }
  })
}

/** Whether two readings that follow each other cannot belong to one track. */
export function breaks(before: PointToPlace, after: PointToPlace, options: PlacingOptions): boolean {
  const pauseMs = after.takenAtMs! - before.takenAtMs!
  const jumpM = shortDistanceM(before.lon!, before.lat!, after.lon!, after.lat!)
  if (aircraft(before) || aircraft(after)) return pauseMs > options.aircraftBreakMs || jumpM > options.aircraftBreakM
  if (solarDay(before) !== solarDay(after)) return true
  const surelyM = jumpM - 3 * Math.hypot(before.sigmaM, after.sigmaM)
  return surelyM > 0 && surelyM > (options.groundSpeedMS * pauseMs) / 1000
}

/** Crews work by daylight: a day of UTC would cut an afternoon in the Rockies in two. */
const solarDay = ({ takenAtMs, lon }: PointToPlace): number => Math.floor((takenAtMs! + lon! * MS_PER_DEGREE) / DAY_MS)
