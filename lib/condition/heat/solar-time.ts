const RADIANS = Math.PI / 180
const DAY_MS = 86_400_000
const MINUTE_MS = 60_000
/** 2000 January 1, 12:00 UTC. */
const J2000_MS = Date.UTC(2000, 0, 1, 12)

/**
 * How far the sun's own time is ahead of even time, minutes, −14.3 … 16.5: Smart's equation with the low-precision elements of the sun of
 * J. Meeus, Astronomical Algorithms, chapters 25 and 28. Good to about 5 s for years near 2000.
 */
export function equationOfTimeMin(atMs: number): number {
  const centuries = (atMs - J2000_MS) / DAY_MS / 36_525
  const meanLongitude = (280.46646 + 36000.76983 * centuries + 0.0003032 * centuries * centuries) * RADIANS
  const meanAnomaly = (357.52911 + 35999.05029 * centuries - 0.0001537 * centuries * centuries) * RADIANS
  const eccentricity = 0.016708634 - 0.000042037 * centuries
  const obliquity = (23.4392911 - 0.0130042 * centuries) * RADIANS
  const y = Math.tan(obliquity / 2) ** 2
  const angle = y * Math.sin(2 * meanLongitude) - 2 * eccentricity * Math.sin(meanAnomaly)
    + 4 * eccentricity * y * Math.sin(meanAnomaly) * Math.cos(2 * meanLongitude)
    - 0.5 * y * y * Math.sin(4 * meanLongitude) - 1.25 * eccentricity * eccentricity * Math.sin(2 * meanAnomaly)
  return (angle / RADIANS) * 4
}

export interface SolarTime {
  /** 1 … 366, of the sun's own day. */
  dayOfYear: number
  /** 0 … 24. */
  solarHour: number
}

/** Local solar time of an instant, ms since 1970 UTC, at a longitude, degrees, east positive. */
export function solarTimeOf(atMs: number, longitudeDeg: number): SolarTime {
  const localMs = atMs + longitudeDeg * 4 * MINUTE_MS + equationOfTimeMin(atMs) * MINUTE_MS
  const local = new Date(localMs)
  const dayStartMs = Date.UTC(local.getUTCFullYear(), local.getUTCMonth(), local.getUTCDate())
  const yearStartMs = Date.UTC(local.getUTCFullYear(), 0, 1)
  return { dayOfYear: 1 + (dayStartMs - yearStartMs) / DAY_MS, solarHour: (localMs - dayStartMs) / 3_600_000 }
}
