import { geodesicLengthM } from '../earth/geodesic'
import { vincentyDirect, vincentyInverse } from '../earth/vincenty'
import { unwrapLon, wrapLon } from '../earth/wrap'
import type { LonLat } from '../types'

/**
 * Line distance of every vertex of flat lon,lat,… degrees: WGS84 geodesic sum from the first, metres.
 * Throws a RangeError where one piece reaches the antipode: no line does.
 */
export function lineDistances(lonLat: ArrayLike<number>): Float64Array {
  const count = lonLat.length >> 1
  const distances = new Float64Array(count)
  for (let i = 1; i < count; i++) {
    const pieceM = geodesicLengthM(lonLat[2 * i - 2]!, lonLat[2 * i - 1]!, lonLat[2 * i]!, lonLat[2 * i + 1]!)
    if (pieceM === undefined) throw new RangeError('A piece of the line reaches the other side of the earth.')
    distances[i] = distances[i - 1]! + pieceM
  }
  return distances
}

/** Index of the piece that holds a line distance: the last vertex at or before it, short of the last vertex. */
export function pieceAt(distances: Float64Array, lineDistanceM: number): number {
  let low = 0
  let high = distances.length - 2
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (distances[middle]! <= lineDistanceM) low = middle
    else high = middle - 1
  }
  return Math.max(low, 0)
}

/** Point of a geodesic at a share 0 … 1 of its length. */
export function alongGeodesic(lon1: number, lat1: number, lon2: number, lat2: number, share: number): [lon: number, lat: number] {
  if (share <= 0) return [lon1, lat1]
  if (share >= 1) return [unwrapLon(lon2, lon1), lat2]
  const line = vincentyInverse(lon1, lat1, lon2, lat2)
  if (!line || line.distanceM === 0) return [lon1, lat1]
  return vincentyDirect(lon1, lat1, line.azimuthRad, line.distanceM * share)
}

/** Point at a line distance in metres; distances beyond an end give that end. Longitude comes back in −180 … 180. */
export function pointAtLineDistance(lonLat: ArrayLike<number>, lineDistanceM: number, distances = lineDistances(lonLat)): LonLat {
  const piece = pieceAt(distances, lineDistanceM)
  const lengthM = distances[piece + 1]! - distances[piece]!
  const share = lengthM > 0 ? (lineDistanceM - distances[piece]!) / lengthM : 0
  const [lon, lat] = alongGeodesic(lonLat[2 * piece]!, lonLat[2 * piece + 1]!, lonLat[2 * piece + 2]!, lonLat[2 * piece + 3]!, share)
  return [wrapLon(lon), lat]
}

/** The stretch between two line distances as flat lon,lat,…, with the shape points in between. */
export function sliceLine(lonLat: ArrayLike<number>, fromM: number, toM: number, distances = lineDistances(lonLat)): Float64Array {
  const flat: number[] = [...pointAtLineDistance(lonLat, fromM, distances)]
  for (let i = 0; i < distances.length; i++) {
    if (distances[i]! > fromM + 1e-6 && distances[i]! < toM - 1e-6) flat.push(lonLat[2 * i]!, lonLat[2 * i + 1]!)
  }
  flat.push(...pointAtLineDistance(lonLat, toM, distances))
  return Float64Array.from(flat)
}
