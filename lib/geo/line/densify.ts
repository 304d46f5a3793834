import { unwrapLon } from '../earth/wrap'
import { alongGeodesic, lineDistances } from './polyline'

/** Pieces up to this length keep the chord within millimetres of the geodesic. */
const PIECE_M = 500

export interface DensifiedLine {
  /** Flat lon,lat,…; longitudes run on across ±180 without a jump. */
  lonLat: Float64Array
  /** Line distance of each vertex, metres. */
  distancesM: Float64Array
}

/** Cuts pieces over `pieceM` into equal parts on the geodesic: for geometry only, no new vertex is a structure. */
export function densify(lonLat: ArrayLike<number>, pieceM = PIECE_M): DensifiedLine {
  const distances = lineDistances(lonLat)
  const flat: number[] = [lonLat[0]!, lonLat[1]!]
  const at: number[] = [0]
  let lon = lonLat[0]!
  for (let i = 1; i < distances.length; i++) {
    const backLon = lon
    const backLat = lonLat[2 * i - 1]!
    lon = unwrapLon(lonLat[2 * i]!, backLon)
    const lengthM = distances[i]! - distances[i - 1]!
    const parts = Math.max(Math.ceil(lengthM / pieceM - 1e-9), 1)
    for (let part = 1; part < parts; part++) {
      const [partLon, partLat] = alongGeodesic(backLon, backLat, lon, lonLat[2 * i + 1]!, part / parts)
      flat.push(unwrapLon(partLon, backLon), partLat)
      at.push(distances[i - 1]! + (lengthM * part) / parts)
    }
    flat.push(lon, lonLat[2 * i + 1]!)
    at.push(distances[i]!)
  }
  return { lonLat: Float64Array.from(flat), distancesM: Float64Array.from(at) }
}
