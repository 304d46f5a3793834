import { shortDistanceM } from '../earth/geodesic'
import type { GeoIssue } from '../types'
import { error, metresWords, sectionName, sectionWords, type LineFeature } from './line-feature'

/** No straight between two vertices of a line is longer: beyond it a coordinate is wrong. */
const MOST_STRAIGHT_M = 100_000
const SAME_VERTEX_M = 0.01

/** The vertices of one piece without repeats, or what is wrong with it. */
export function checkPiece(feature: LineFeature, piece: Float64Array): Float64Array | GeoIssue {
  const where = sectionWords(feature.circuit, sectionName(feature.section))
  const kept: number[] = []
  for (let i = 0; i + 1 < piece.length; i += 2) {
    const lon = piece[i]!
    const lat = piece[i + 1]!
    if (!(Math.abs(lon) <= 180 && Math.abs(lat) <= 90)) {
      return error(feature.rowNo, 'coordinate-range', `Vertex ${i / 2 + 1} of ${where} is (${lon}, ${lat}).`,
        'Give longitude first, −180 to 180, then latitude, −90 to 90, in degrees WGS84.', { value: `${lon}, ${lat}` })
    }
    const stepM = kept.length === 0 ? Infinity : shortDistanceM(kept.at(-2)!, kept.at(-1)!, lon, lat)
    if (stepM <= SAME_VERTEX_M) continue
    if (kept.length > 0 && !(stepM <= MOST_STRAIGHT_M)) {
      return error(feature.rowNo, 'vertices-far-apart', `Vertices ${i / 2} and ${i / 2 + 1} of ${where} are ${metresWords(stepM)} apart.`,
        'Check that these coordinates are longitude, latitude and that no vertex is missing.', { value: `${lon}, ${lat}` })
    }
    kept.push(lon, lat)
  }
  if (kept.length < 4) {
    return error(feature.rowNo, 'line-too-short', `A piece of ${where} has fewer than two different vertices.`,
      'Give the line two vertices or more.')
  }
  return Float64Array.from(kept)
}
