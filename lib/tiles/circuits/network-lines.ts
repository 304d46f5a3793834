import type { LineSpan } from '@/lib/store/tile-sources'

const ROUNDING_DEG = 1e-5

/** Ends of a span as text, equal where structures stand within about a metre of each other. */
export function spanEnds(span: LineSpan): { start: string; end: string } {
  const at = (i: number) => `${Math.round((span.lonLat[i] ?? 0) / ROUNDING_DEG)},${Math.round((span.lonLat[i + 1] ?? 0) / ROUNDING_DEG)}`
  return { start: at(0), end: at(span.lonLat.length - 2) }
}

/** The same whichever way a circuit runs through the span. */
export function pairKey(span: LineSpan): string {
  const { start, end } = spanEnds(span)
  return start < end ? `${start} ${end}` : `${end} ${start}`
}

/** Bearing of a step in degrees clockwise from north (local plane, good for steps of a few kilometres). */
export function bearingDeg(fromLon: number, fromLat: number, toLon: number, toLat: number): number {
  const east = (toLon - fromLon) * Math.cos((((fromLat + toLat) / 2) * Math.PI) / 180)
  return (Math.atan2(east, toLat - fromLat) * 180) / Math.PI
}
