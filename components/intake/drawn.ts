import type { PreviewRow } from '@/lib/contract/intake'

/** What can be drawn of a row: a place of its own, the stretch of line that it names, or both. */
export interface Drawn {
  raw: { lon: number; lat: number } | null
  course: [number, number][] | undefined
  bbox: [west: number, south: number, east: number, north: number]
}

/** Around a place, degrees: some hundred metres, so that the structures beside it are seen. */
const MARGIN_DEG = 0.004

/** Null where a row names neither a position nor a line that is known. */
export function drawnOf({ becomes: { lon, lat, course } }: PreviewRow): Drawn | null {
  const raw = typeof lon === 'number' && typeof lat === 'number' ? { lon, lat } : null
  const points = [...(course ?? []), ...(raw ? [[raw.lon, raw.lat] as const] : [])]
  if (points.length === 0) return null
  const [lons, lats] = [points.map(([x]) => x), points.map(([, y]) => y)]
  const margin = course ? 0 : MARGIN_DEG
  return { raw, course, bbox: [Math.min(...lons) - margin, Math.min(...lats) - margin, Math.max(...lons) + margin, Math.max(...lats) + margin] }
}
