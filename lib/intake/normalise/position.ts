import type { CellReport } from '../cells/cell-report'
import type { NormaliseContext } from '../outcome'
import { SWAPPED, SWAPPED_ROW_REMEDY } from '../report/swapped'

type Bbox = NonNullable<NormaliseContext['networkBbox']>

/** Degrees around the network in which a position still counts as meant. */
const MARGIN_DEG = 1

const inside = (lon: number, lat: number, [west, south, east, north]: Bbox): boolean =>
  lon >= west - MARGIN_DEG && lon <= east + MARGIN_DEG && lat >= south - MARGIN_DEG && lat <= north + MARGIN_DEG

/** What is wrong with a pair of coordinates, as code and sentence; null where nothing is. */
export function coordinateTrouble(lon: number, lat: number, bbox?: Bbox): { code: string; message: string; remedy: string } | null {
  if (Math.abs(lon) <= 180 && Math.abs(lat) <= 90) {
    if (!bbox || inside(lon, lat, bbox) || Math.abs(lon) > 90 || !inside(lat, lon, bbox)) return null
    return {
      code: SWAPPED, message: 'lies outside the network, and inside it with longitude and latitude swapped.', remedy: SWAPPED_ROW_REMEDY,
    }
  }
  if (Math.abs(lat) > 90 && Math.abs(lat) <= 180 && Math.abs(lon) <= 90) {
    return {
      code: SWAPPED, message: `has the latitude ${lat}, beyond 90 degrees: longitude and latitude look swapped.`,
      remedy: SWAPPED_ROW_REMEDY,
    }
  }
  return {
    code: 'position-out-of-range', message: 'is no longitude and latitude in degrees.',
    remedy: 'Export positions as WGS84 degrees, longitude -180 to 180 and latitude -90 to 90; metres of a projection are not read.',
  }
}

/** Leaves a position that can be used, or none; a pair that cannot be meant rejects the row. */
export function settlePosition(draft: { lon: number | null; lat: number | null }, report: CellReport, bbox?: Bbox): void {
  const { lon, lat } = draft
  if (lon === null && lat === null) return
  if (lon !== null && lat !== null && (lon !== 0 || lat !== 0) && coordinateTrouble(lon, lat, bbox) === null) return
  draft.lon = null
  draft.lat = null
  const pair = `${lon ?? 'nothing'}, ${lat ?? 'nothing'}`
  if (lon === null || lat === null) {
    const missing = lon === null ? 'lon' : 'lat'
    report.about(
      'warning', missing, 'position-incomplete', pair,
      `the position '${pair}' lacks its ${missing === 'lon' ? 'longitude' : 'latitude'}, so there is none.`,
      'Give both coordinates, or place the row by hand.'
    )
    return
  }
  if (lon === 0 && lat === 0) {
    report.about(
      'warning', 'lon', 'position-zero', pair, `the position '${pair}' is what receivers write without a fix, so it counts as missing.`,
      'Give the true position, or the structures, or place the row by hand.'
    )
    return
  }
  const trouble = coordinateTrouble(lon, lat, bbox)
  if (!trouble) return
  report.about('error', Math.abs(lat) > 90 ? 'lat' : 'lon', trouble.code, pair, `the position '${pair}' ${trouble.message}`, trouble.remedy)
}
