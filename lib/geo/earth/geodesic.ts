import { vincentyInverse } from './vincenty'
import { metresPerLatDegree, metresPerLonDegree } from './wgs84'
import { unwrapLon } from './wrap'

/** Up to here the mid-latitude formula stays within 1 ppm of the geodesic at power-line latitudes. */
const SHORT_M = 3_000
const SHORT_LAT_DEG = 75

/**
 * Length of a short line in degrees, metres: plane right triangle on the WGS84 radii at the mid-latitude (Gauss).
 * Within 1 ppm of the geodesic up to 3 km below 75° latitude, across ±180 too.
 */
export function shortDistanceM(lon1: number, lat1: number, lon2: number, lat2: number): number {
  const midLat = (lat1 + lat2) / 2
  const eastM = (unwrapLon(lon2, lon1) - lon1) * metresPerLonDegree(midLat)
  const northM = (lat2 - lat1) * metresPerLatDegree(midLat)
  return Math.sqrt(eastM * eastM + northM * northM)
}

/** WGS84 geodesic length of any line in degrees, metres; no result near antipodes. */
export function geodesicLengthM(lon1: number, lat1: number, lon2: number, lat2: number): number | undefined {
  if (Math.abs(lat1) < SHORT_LAT_DEG && Math.abs(lat2) < SHORT_LAT_DEG && Math.abs(lat2 - lat1) < 0.1) {
    const lengthM = shortDistanceM(lon1, lat1, lon2, lat2)
    if (lengthM <= SHORT_M) return lengthM
  }
  return vincentyInverse(lon1, lat1, lon2, lat2)?.distanceM
}
