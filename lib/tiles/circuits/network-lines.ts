import type { LineSpan } from '@/lib/store/tile-sources'

/** Structures within about a metre are the same. */
const ROUNDING_DEG = 1e-5

/** Where a span begins, and a text that is the same for all spans between the same two structures, whichever way they run. */
export function spanEnds(span: Pick<LineSpan, 'lonLat'>): { start: string; pair: string } {
  const at = (i: number) => `${Math.round((span.lonLat[i] ?? 0) / ROUNDING_DEG)},${Math.round((span.lonLat[i + 1] ?? 0) / ROUNDING_DEG)}`
  const start = at(0)
  const end = at(span.lonLat.length - 2)
  return { start, pair: start < end ? `${start} ${end}` : `${end} ${start}` }
}

/** The same text for places within about a metre. */
export const placeKey = (lon: number, lat: number): string => `${lon.toFixed(5)},${lat.toFixed(5)}`

/** Bearing of a step in degrees clockwise from north (local plane, good for steps of a few kilometres). */
export function bearingDeg(fromLon: number, fromLat: number, toLon: number, toLat: number): number {
  const east = (toLon - fromLon) * Math.cos((((fromLat + toLat) / 2) * Math.PI) / 180)
  return (Math.atan2(east, toLat - fromLat) * 180) / Math.PI
}
