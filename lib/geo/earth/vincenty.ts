import { WGS84_A_M, WGS84_F } from './wgs84'

const RADIANS = Math.PI / 180
const B_M = WGS84_A_M * (1 - WGS84_F)
const SECOND_ECCENTRICITY_2 = (WGS84_A_M * WGS84_A_M - B_M * B_M) / (B_M * B_M)
const MOST_STEPS = 60

export interface Geodesic {
  distanceM: number
  /** Clockwise from north at the first point, radians. */
  azimuthRad: number
}

const series = (cos2Alpha: number): { a: number; b: number } => {
  const u2 = cos2Alpha * SECOND_ECCENTRICITY_2
  return {
    a: 1 + (u2 / 16384) * (4096 + u2 * (-768 + u2 * (320 - 175 * u2))),
    b: (u2 / 1024) * (256 + u2 * (-128 + u2 * (74 - 47 * u2))),
  }
}

const deltaSigma = (b: number, sinS: number, cosS: number, cos2M: number): number =>
  b * sinS * (cos2M + (b / 4) * (cosS * (2 * cos2M * cos2M - 1) - (b / 6) * cos2M * (4 * sinS * sinS - 3) * (4 * cos2M * cos2M - 3)))

const longitudeTerm = (sinAlpha: number, cos2Alpha: number, sigma: number, sinS: number, cosS: number, cos2M: number): number => {
  const c = (WGS84_F / 16) * cos2Alpha * (4 + WGS84_F * (4 - 3 * cos2Alpha))
  return (1 - c) * WGS84_F * sinAlpha * (sigma + c * sinS * (cos2M + c * cosS * (2 * cos2M * cos2M - 1)))
}

/**
 * Geodesic between two points in degrees, to better than 1 mm (Vincenty, Survey Review 176, 1975, inverse formula).
 * Near antipodes the iteration does not settle: then there is no result, and no endless loop.
 */
export function vincentyInverse(lon1: number, lat1: number, lon2: number, lat2: number): Geodesic | undefined {
  const u1 = Math.atan((1 - WGS84_F) * Math.tan(lat1 * RADIANS))
  const u2 = Math.atan((1 - WGS84_F) * Math.tan(lat2 * RADIANS))
  const [sinU1, cosU1, sinU2, cosU2] = [Math.sin(u1), Math.cos(u1), Math.sin(u2), Math.cos(u2)]
  const turn = ((((lon2 - lon1 + 180) % 360) + 360) % 360) - 180
  const l = turn * RADIANS
  let lambda = l
  for (let step = 0; step < MOST_STEPS; step++) {
    const [sinL, cosL] = [Math.sin(lambda), Math.cos(lambda)]
    const east = cosU2 * sinL
    const north = cosU1 * sinU2 - sinU1 * cosU2 * cosL
    const sinS = Math.hypot(east, north)
    const cosS = sinU1 * sinU2 + cosU1 * cosU2 * cosL
    if (sinS === 0) return cosS > 0 ? { distanceM: 0, azimuthRad: 0 } : undefined
    const sigma = Math.atan2(sinS, cosS)
    const sinAlpha = (cosU1 * cosU2 * sinL) / sinS
    const cos2Alpha = 1 - sinAlpha * sinAlpha
    const cos2M = cos2Alpha > 1e-15 ? cosS - (2 * sinU1 * sinU2) / cos2Alpha : 0
    const next = l + longitudeTerm(sinAlpha, cos2Alpha, sigma, sinS, cosS, cos2M)
    if (Math.abs(next) > Math.PI) return undefined
    if (Math.abs(next - lambda) < 1e-13) {
      const { a, b } = series(cos2Alpha)
      return { distanceM: B_M * a * (sigma - deltaSigma(b, sinS, cosS, cos2M)), azimuthRad: Math.atan2(east, north) }
    }
    lambda = next
  }
  return undefined
}

/** The point `distanceM` along a geodesic from a point in degrees (Vincenty 1975, direct formula); longitude is not wrapped. */
export function vincentyDirect(lon: number, lat: number, azimuthRad: number, distanceM: number): [lon: number, lat: number] {
  const tanU1 = (1 - WGS84_F) * Math.tan(lat * RADIANS)
  const cosU1 = 1 / Math.sqrt(1 + tanU1 * tanU1)
  const sinU1 = tanU1 * cosU1
  const [sinA1, cosA1] = [Math.sin(azimuthRad), Math.cos(azimuthRad)]
  const sigma1 = Math.atan2(tanU1, cosA1)
  const sinAlpha = cosU1 * sinA1
  const cos2Alpha = 1 - sinAlpha * sinAlpha
  const { a, b } = series(cos2Alpha)
  const first = distanceM / (B_M * a)
  let sigma = first
  let cos2M = Math.cos(2 * sigma1 + sigma)
  for (let step = 0; step < MOST_STEPS; step++) {
    const next = first + deltaSigma(b, Math.sin(sigma), Math.cos(sigma), cos2M)
    const settled = Math.abs(next - sigma) < 1e-13
    sigma = next
    cos2M = Math.cos(2 * sigma1 + sigma)
    if (settled) break
  }
  const [sinS, cosS] = [Math.sin(sigma), Math.cos(sigma)]
  const across = sinU1 * sinS - cosU1 * cosS * cosA1
  const lat2 = Math.atan2(sinU1 * cosS + cosU1 * sinS * cosA1, (1 - WGS84_F) * Math.hypot(sinAlpha, across))
  const lambda = Math.atan2(sinS * sinA1, cosU1 * cosS - sinU1 * sinS * cosA1)
  return [lon + (lambda - longitudeTerm(sinAlpha, cos2Alpha, sigma, sinS, cosS, cos2M)) / RADIANS, lat2 / RADIANS]
}
