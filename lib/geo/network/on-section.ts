import { alongGeodesic } from '../line/polyline'
import { wrapLon } from '../earth/wrap'
import { shortDistanceM } from '../earth/geodesic'
import type { LonLat } from '../types'
import type { Network } from './network'

/** The span of a section that holds a line distance; the nearer end span beyond the ends. Undefined: a section without spans. */
export function spanAt(network: Network, section: number, lineDistanceM: number): number | undefined {
  let low = network.sectionSpan[section]!
  let high = network.sectionSpan[section + 1]! - 1
  if (high < low) return undefined
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (network.spans[middle]!.startM <= lineDistanceM) low = middle
    else high = middle - 1
  }
  return low
}

/** The piece of a span that holds a line distance. */
export function pieceOfSpan(network: Network, span: number, lineDistanceM: number): number {
  let piece = network.spanPiece[span]!
  while (piece + 1 < network.spanPiece[span + 1]! && network.pieces.startM[piece + 1]! <= lineDistanceM) piece++
  return piece
}

/** The point of the conductor (beside the centreline where the section has an offset) at a line distance in metres. */
export function conductorPoint(network: Network, piece: number, lineDistanceM: number): LonLat {
  const { pieces } = network
  const centreM = pieces.centreM[piece]!
  const share = centreM > 0 ? Math.min(Math.max((lineDistanceM - pieces.startM[piece]!) / centreM, 0), 1) : 0
  const [lon, lat] = alongGeodesic(pieces.lon[piece]!, pieces.lat[piece]!, pieces.endLon[piece]!, pieces.endLat[piece]!, share)
  return [wrapLon(lon), lat]
}

/** Distance in metres from a position to the conductor at a line distance. */
export function distanceToPlace(network: Network, section: number, lineDistanceM: number, lon: number, lat: number): number {
  const span = spanAt(network, section, lineDistanceM)
  if (span === undefined) return Infinity
  const [placeLon, placeLat] = conductorPoint(network, pieceOfSpan(network, span, lineDistanceM), lineDistanceM)
  return shortDistanceM(placeLon, placeLat, lon, lat)
}

/** End of a section: the line distance of its last span's end. */
export const sectionEndM = (network: Network, section: number): number => {
  const last = network.sectionSpan[section + 1]! - 1
  return last < network.sectionSpan[section]! ? 0 : network.spans[last]!.endM
}
