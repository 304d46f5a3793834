/** Semi-major axis, metres, and flattening of WGS84 (NIMA TR8350.2, table 3.1). */
export const WGS84_A_M = 6_378_137
export const WGS84_F = 1 / 298.257223563
const WGS84_E2 = WGS84_F * (2 - WGS84_F)

const RADIANS = Math.PI / 180

/** Radius of curvature in the meridian, metres, at a latitude in degrees. */
export function meridianRadiusM(latDeg: number): number {
  const sin = Math.sin(latDeg * RADIANS)
  const w2 = 1 - WGS84_E2 * sin * sin
  return (WGS84_A_M * (1 - WGS84_E2)) / (w2 * Math.sqrt(w2))
}

/** Radius of curvature in the prime vertical, metres, at a latitude in degrees. */
export function primeVerticalRadiusM(latDeg: number): number {
  const sin = Math.sin(latDeg * RADIANS)
  return WGS84_A_M / Math.sqrt(1 - WGS84_E2 * sin * sin)
}

/** Metres northward per degree of latitude, at a latitude in degrees. */
export const metresPerLatDegree = (latDeg: number): number => meridianRadiusM(latDeg) * RADIANS

/** Metres eastward per degree of longitude, at a latitude in degrees; 0 at the poles. */
export const metresPerLonDegree = (latDeg: number): number =>
  Math.max(primeVerticalRadiusM(latDeg) * Math.cos(latDeg * RADIANS) * RADIANS, 0)

/**
 * Scale that makes latitudes about `midLatDeg` read on a sphere as they lie on WGS84: meridian over prime vertical
 * radius, (1 − e²) / (1 − e² sin² φ). Right angles and ratios of lengths then hold locally.
 */
export function latitudeScale(midLatDeg: number): number {
  const sin = Math.sin(midLatDeg * RADIANS)
  return (1 - WGS84_E2) / (1 - WGS84_E2 * sin * sin)
}
