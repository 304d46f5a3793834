import { geodesicLengthM } from '../earth/geodesic'
import { metresPerLatDegree, metresPerLonDegree } from '../earth/wgs84'
import { wrapLon } from '../earth/wrap'
import { densify } from '../line/densify'
import { offsetLine } from '../line/offset-line'
import type { NetworkSection, NetworkSpan } from '../types'

/**
 * Every conductor piece of the network in columns, ordered by section and line distance. Positions are those of the
 * conductor beside the centreline; line distances run on the centreline.
 */
export interface PieceTable {
  count: number
  section: Int32Array
  span: Int32Array
  /** Start and end, degrees; the end's longitude runs on across ±180. */
  lon: Float64Array
  lat: Float64Array
  endLon: Float64Array
  endLat: Float64Array
  /** The piece as a vector in its own plane, metres. */
  eastM: Float64Array
  northM: Float64Array
  lonM: Float64Array
  latM: Float64Array
  /** Line distance at the start, and centreline length. */
  startM: Float64Array
  centreM: Float64Array
  /** WGS84 length of the conductor piece. */
  conductorM: Float64Array
}

interface Shape {
  span: number
  lonLat: Float64Array
  distancesM: Float64Array
}

const columns = (count: number): PieceTable => ({
  count,
  section: new Int32Array(count),
  span: new Int32Array(count),
  lon: new Float64Array(count),
  lat: new Float64Array(count),
  endLon: new Float64Array(count),
  endLat: new Float64Array(count),
  eastM: new Float64Array(count),
  northM: new Float64Array(count),
  lonM: new Float64Array(count),
  latM: new Float64Array(count),
  startM: new Float64Array(count),
  centreM: new Float64Array(count),
  conductorM: new Float64Array(count),
})

/** Spans must come ordered by section and line distance; `sectionSpan` holds each section's first span, and the count at the end. */
export function buildPieces(sections: readonly NetworkSection[], spans: readonly NetworkSpan[], sectionSpan: Int32Array): PieceTable {
  const shapes: Shape[] = spans.map((span, index) => ({ span: index, ...densify(span.lonLat) }))
  const table = columns(shapes.reduce((sum, shape) => sum + Math.max(shape.distancesM.length - 1, 0), 0))
  let piece = 0
  sections.forEach((section, sectionIndex) => {
    const own = shapes.slice(sectionSpan[sectionIndex], sectionSpan[sectionIndex + 1])
    const conductor = offsetLine(joined(own), section.lateralOffsetM ?? 0)
    let vertex = 0
    for (const shape of own) {
      const startM = spans[shape.span]!.startM
      for (let i = 1; i < shape.distancesM.length; i++) {
        const at = vertex + i - 1
        table.section[piece] = sectionIndex
        table.span[piece] = shape.span
        table.startM[piece] = startM + shape.distancesM[i - 1]!
        table.centreM[piece] = shape.distancesM[i]! - shape.distancesM[i - 1]!
        fillGeometry(table, piece, conductor[2 * at]!, conductor[2 * at + 1]!, conductor[2 * at + 2]!, conductor[2 * at + 3]!)
        piece++
      }
      vertex += shape.distancesM.length
    }
  })
  return table
}

/** One run of vertices, so that the corner at a structure knows both its spans. */
function joined(shapes: readonly Shape[]): Float64Array {
  const all = new Float64Array(shapes.reduce((sum, shape) => sum + shape.lonLat.length, 0))
  let at = 0
  let lon = shapes[0]?.lonLat[0] ?? 0
  for (const shape of shapes) {
    for (let i = 0; i < shape.lonLat.length; i += 2) {
      lon = shape.lonLat[i]! + 360 * Math.round((lon - shape.lonLat[i]!) / 360)
      all[at++] = lon
      all[at++] = shape.lonLat[i + 1]!
    }
  }
  return all
}

function fillGeometry(table: PieceTable, piece: number, lon: number, lat: number, endLon: number, endLat: number): void {
  const start = wrapLon(lon)
  const end = endLon + (start - lon)
  const midLat = (lat + endLat) / 2
  const lonM = metresPerLonDegree(midLat)
  const latM = metresPerLatDegree(midLat)
  table.lon[piece] = start
  table.lat[piece] = lat
  table.endLon[piece] = end
  table.endLat[piece] = endLat
  table.eastM[piece] = (end - start) * lonM
  table.northM[piece] = (endLat - lat) * latM
  table.lonM[piece] = lonM
  table.latM[piece] = latM
  table.conductorM[piece] = geodesicLengthM(start, lat, end, endLat) ?? 0
}
