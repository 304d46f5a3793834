import type { Geometry } from 'geojson'
import type { CellReport } from '../cells/cell-report'
import type { NormaliseContext } from '../outcome'
import { SWAPPED } from '../report/swapped'
import { coordinateTrouble } from './position'

/** Two coordinates of a position of RFC 7946; a third and more are left out. Null where it is none. */
function pairOf(position: unknown): [number, number] | null {
  if (!Array.isArray(position)) return null
  const [lon, lat] = position as unknown[]
  return typeof lon === 'number' && typeof lat === 'number' && Number.isFinite(lon) && Number.isFinite(lat) ? [lon, lat] : null
}

const refuse = (report: CellReport, code: string, value: string, message: string, remedy: string): null => {
  report.about('error', 'geometry', code, value, message, remedy)
  return null
}

/** The one position of a Point, or of a MultiPoint that holds one. Null where there is none: the report knows whether that is wrong. */
export function pointOf(geometry: Geometry | undefined, report: CellReport): [number, number] | null {
  if (!geometry) return null
  const coordinates: unknown = 'coordinates' in geometry ? geometry.coordinates : null
  const isOne = geometry.type === 'MultiPoint' && Array.isArray(coordinates) && coordinates.length === 1
  const single = isOne ? (coordinates[0] as unknown) : coordinates
  if (geometry.type !== 'Point' && single === coordinates) {
    return refuse(
      report, 'not-a-point', geometry.type, `the feature is a ${geometry.type}, and a point is wanted.`,
      'Export these features as points, one each.'
    )
  }
  if (Array.isArray(single) && single.length === 0) return null
  const pair = pairOf(single)
  return pair ?? refuse(
    report, 'bad-position', JSON.stringify(single ?? null).slice(0, 60), 'the point has no pair of numbers.',
    'Give "coordinates": [longitude, latitude].'
  )
}

const WRONG_FOR_LINES: Readonly<Record<string, [code: string, remedy: string]>> = {
  Polygon: ['polygon-for-line', 'Export the centreline as a LineString; a right-of-way is not read as a line.'],
  MultiPolygon: ['polygon-for-line', 'Export the centreline as a LineString; a right-of-way is not read as a line.'],
  GeometryCollection: ['collection-for-line', 'Export one LineString per feature.'],
  MultiPoint: ['multipoint-for-line', 'Export one Point per structure, or a LineString.'],
}

/**
 * Pieces of a LineString or MultiLineString, flat lon,lat,…; repeated positions are dropped, third coordinates left out.
 * Longitudes may step over 180 degrees, as RFC 7946 section 3.1.9 allows without recommending it.
 */
export function piecesOf(geometry: Geometry | undefined, report: CellReport, bbox: NormaliseContext['networkBbox']): Float64Array[] | null {
  if (!geometry) return refuse(
    report, 'no-geometry', 'null', 'there is no line geometry.', 'Export the lines as GeoJSON with their LineStrings.'
  )
  if (geometry.type !== 'LineString' && geometry.type !== 'MultiLineString') {
    const [code, remedy] = WRONG_FOR_LINES[geometry.type] ?? ['not-a-line', 'Export the centreline as a LineString.']
    return refuse(report, code, geometry.type, `the feature is a ${geometry.type}, and a line is wanted.`, remedy)
  }
  const { coordinates }: { coordinates: unknown } = geometry
  const lines: unknown[] = geometry.type === 'LineString' || !Array.isArray(coordinates) ? [coordinates] : coordinates
  const pieces: Float64Array[] = []
  for (const line of lines) {
    const piece = pieceOf(line, report, bbox)
    if (!piece) return null
    pieces.push(piece)
  }
  return pieces.length > 0 ? pieces : refuse(
    report, 'no-geometry', '[]', 'the line has no positions.', 'Export the lines with their LineStrings.'
  )
}

function pieceOf(line: unknown, report: CellReport, bbox: NormaliseContext['networkBbox']): Float64Array | null {
  if (!Array.isArray(line)) return refuse(
    report, 'bad-position', 'null', 'the line has no list of positions.', 'Give "coordinates": [[longitude, latitude], …].'
  )
  const flat: number[] = []
  for (let at = 0; at < line.length; at++) {
    const pair = pairOf(line[at])
    if (!pair) {
      const value = JSON.stringify(line[at] ?? null).slice(0, 60)
      return refuse(
        report, 'bad-position', value, `position ${at + 1} of the line, '${value}', is no pair of numbers.`,
        'Give longitude and latitude as numbers.'
      )
    }
    if (!checkVertex(pair, at, report, bbox)) return null
    if (flat.length === 0 || flat.at(-2) !== pair[0] || flat.at(-1) !== pair[1]) flat.push(pair[0], pair[1])
  }
  if (flat.length < 4) {
    return refuse(
      report, 'no-length', String(line.length), `the line has ${line.length === 1 ? '1 position' : `${line.length} positions`} and no length.`,
      'A line needs two different positions; export a structure as a Point.'
    )
  }
  if (flat.length > 4 && flat[0] === flat.at(-2) && flat[1] === flat.at(-1)) {
    report.about(
      'warning', 'geometry', 'closed-line', undefined, 'the line ends where it begins, so it has no far end.',
      'Check that it is a line and not the outline of an area.'
    )
  }
  return Float64Array.from(flat)
}

function checkVertex([lon, lat]: [number, number], at: number, report: CellReport, bbox: NormaliseContext['networkBbox']): boolean {
  const trouble = lon === 0 && lat === 0
    ? { code: 'position-zero', message: 'is what receivers write without a fix.', remedy: 'Correct the vertex, or remove it.' }
    : coordinateTrouble(lon, lat, bbox)
  if (!trouble) return true
  const pair = `${lon}, ${lat}`
  const remedy = trouble.code === SWAPPED ? 'Export the line again with the longitude first in every position, as GeoJSON wants it.' : trouble.remedy
  report.about('error', 'geometry', trouble.code, pair, `position ${at + 1} of the line, '${pair}', ${trouble.message}`, remedy)
  return false
}
