import { vincentyInverse } from './vincenty'

/** Direction of the geodesic from the first point towards the second, degrees clockwise from north, 0 … 360; undefined where they are one point. */
export function azimuthDeg(lon1: number, lat1: number, lon2: number, lat2: number): number | undefined {
  const geodesic = vincentyInverse(lon1, lat1, lon2, lat2)
  if (!geodesic || geodesic.distanceM === 0) return undefined
  return ((geodesic.azimuthRad * 180) / Math.PI + 360) % 360
}
