import { solarTimeOf } from '../heat/solar-time'
import { sunPosition } from '../heat/sun'

/** When the sun is off a place within a day from a moment on, ms since 1970 UTC. */
export type SunOff =
  | { kind: 'always' }
  | { kind: 'never' }
  | { kind: 'between'; fromMs: number; toMs: number }

const STEP_MS = 5 * 60_000
const STEPS = (24 * 60) / 5

/**
 * The first stretch within 24 hours in which the sun stands below the horizon, to five minutes (IEEE Std 738-2012 for the sun's place). Hills are not
 * known: the sun may be off a valley sooner.
 */
export function sunOff(fromMs: number, longitudeDeg: number, latitudeDeg: number): SunOff {
  const isUp = (atMs: number): boolean => {
    const { dayOfYear, solarHour } = solarTimeOf(atMs, longitudeDeg)
    return sunPosition(latitudeDeg, dayOfYear, solarHour).altitudeDeg > 0
  }
  const up = Array.from({ length: STEPS + 1 }, (_, i) => isUp(fromMs + i * STEP_MS))
  const first = up.indexOf(false)
  if (first < 0) return { kind: 'never' }
  const end = up.indexOf(true, first)
  if (first === 0 && end < 0) return { kind: 'always' }
  let last = end
  // The stretch may run on beyond the day.
  if (last < 0) {
    last = STEPS
    while (last < 2 * STEPS && !isUp(fromMs + last * STEP_MS)) last++
  }
  return { kind: 'between', fromMs: fromMs + first * STEP_MS, toMs: fromMs + last * STEP_MS }
}
