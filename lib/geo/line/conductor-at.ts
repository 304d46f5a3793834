import { wrapLon } from '../earth/wrap'
import type { LonLat } from '../types'
import { offsetLine } from './offset-line'
import { alongGeodesic, lineDistances, pieceAt } from './polyline'

/**
 * The point of a circuit's conductor, beside the centreline by `lateralOffsetM` (left negative, looking ahead), at a line
 * distance in metres; distances beyond an end give that end. Across ±180 too.
 */
export function conductorAt(
  lonLat: Float64Array, lateralOffsetM: number, lineDistanceM: number, distancesM = lineDistances(lonLat),
): LonLat {
  const conductor = offsetLine(lonLat, lateralOffsetM)
  const piece = pieceAt(distancesM, lineDistanceM)
  const lengthM = distancesM[piece + 1]! - distancesM[piece]!
  const share = lengthM > 0 ? (lineDistanceM - distancesM[piece]!) / lengthM : 0
  const at = 2 * piece
  const [lon, lat] = alongGeodesic(conductor[at]!, conductor[at + 1]!, conductor[at + 2]!, conductor[at + 3]!, share)
  return [wrapLon(lon), lat]
}
