import { nearestPointOnLine } from '@turf/nearest-point-on-line'
import type { LineString } from 'geojson'
import { geodesicLengthM, shortDistanceM } from '../earth/geodesic'
import { latitudeScale } from '../earth/wgs84'
import { unwrapLon, wrapLon } from '../earth/wrap'
import type { Network } from './network'

/** A span's conductor in the frame in which turf's sphere measures as WGS84 does. */
interface SpanFrame {
  line: LineString
  first: number
  last: number
  lon: number
  midLat: number
  scale: number
}

/** The point of a conductor nearest to a position, on WGS84. */
export interface Foot {
  lon: number
  lat: number
  piece: number
  lineDistanceM: number
  /** Left negative, looking ahead. */
  offsetM: number
}

const frames = new WeakMap<Network, (SpanFrame | undefined)[]>()

/** Lines without named structures are one span of many pieces: there only the neighbourhood is worth a frame. */
const MOST_PIECES = 8

function frameOf(network: Network, span: number, nearPiece: number): SpanFrame {
  const first = network.spanPiece[span]!
  const last = network.spanPiece[span + 1]! - 1
  if (last - first >= MOST_PIECES) return makeFrame(network, Math.max(nearPiece - 2, first), Math.min(nearPiece + 2, last))
  let all = frames.get(network)
  if (!all) frames.set(network, (all = new Array<SpanFrame | undefined>(network.spans.length)))
  return (all[span] ??= makeFrame(network, first, last))
}

function makeFrame(network: Network, first: number, last: number): SpanFrame {
  const { pieces } = network
  const lon = pieces.lon[first]!
  const midLat = (pieces.lat[first]! + pieces.endLat[last]!) / 2
  const scale = latitudeScale(midLat)
  const coordinates: number[][] = []
  for (let piece = first; piece <= last; piece++) {
    coordinates.push([unwrapLon(pieces.lon[piece]!, lon), midLat + (pieces.lat[piece]! - midLat) * scale])
  }
  coordinates.push([unwrapLon(pieces.endLon[last]!, lon), midLat + (pieces.endLat[last]! - midLat) * scale])
  return { line: { type: 'LineString', coordinates }, first, last, lon, midLat, scale }
}

/**
 * Snaps a position in degrees onto one span's conductor with turf in the span's local frame: latitudes scaled about
 * the mid-latitude by (1 − e²) / (1 − e² sin² φ) and scaled back. Line distance and offset are measured from that foot
 * on WGS84; line distance on the centreline. The foot lies within 10 mm of the geodesic's. `nearPiece` spares a look at
 * every piece of the span where the caller knows the nearest.
 */
export function snapToSpan(
  network: Network, span: number, lon: number, lat: number, nearPiece = nearestPiece(network, span, lon, lat),
): Foot {
  const { pieces } = network
  const frame = frameOf(network, span, nearPiece)
  const found = nearestPointOnLine(frame.line, [unwrapLon(lon, frame.lon), frame.midLat + (lat - frame.midLat) * frame.scale])
  const footLon = found.geometry.coordinates[0]!
  const footLat = frame.midLat + (found.geometry.coordinates[1]! - frame.midLat) / frame.scale
  const piece = Math.min(frame.first + Math.max(found.properties.segmentIndex, 0), frame.last)
  const aheadM = geodesicLengthM(pieces.lon[piece]!, pieces.lat[piece]!, footLon, footLat) ?? 0
  const conductorM = pieces.conductorM[piece]!
  const share = conductorM > 0 ? Math.min(aheadM / conductorM, 1) : 0
  const dx = (unwrapLon(lon, pieces.lon[piece]!) - pieces.lon[piece]!) * pieces.lonM[piece]!
  const dy = (lat - pieces.lat[piece]!) * pieces.latM[piece]!
  const besideM = shortDistanceM(footLon, footLat, lon, lat)
  return {
    lon: wrapLon(footLon),
    lat: footLat,
    piece,
    lineDistanceM: pieces.startM[piece]! + share * pieces.centreM[piece]!,
    offsetM: pieces.eastM[piece]! * dy - pieces.northM[piece]! * dx > 0 ? -besideM : besideM,
  }
}

/** The piece of a span nearest to a position, by planar maths. */
export function nearestPiece(network: Network, span: number, lon: number, lat: number): number {
  const { pieces, spanPiece } = network
  let nearest = spanPiece[span]!
  let nearest2 = Infinity
  for (let piece = spanPiece[span]!; piece < spanPiece[span + 1]!; piece++) {
    const dx = (unwrapLon(lon, pieces.lon[piece]!) - pieces.lon[piece]!) * pieces.lonM[piece]!
    const dy = (lat - pieces.lat[piece]!) * pieces.latM[piece]!
    const east = pieces.eastM[piece]!
    const north = pieces.northM[piece]!
    const length2 = east * east + north * north
    const share = length2 > 0 ? Math.min(Math.max((dx * east + dy * north) / length2, 0), 1) : 0
    const distance2 = (dx - share * east) ** 2 + (dy - share * north) ** 2
    if (distance2 < nearest2) {
      nearest = piece
      nearest2 = distance2
    }
  }
  return nearest
}
