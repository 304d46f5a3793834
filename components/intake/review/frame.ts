import type { ReadingJson, ReviewItem } from '@/lib/contract/contract'
import { PLATFORMS, positionSigmaM } from '@/lib/intake/reading'

/** Standard deviation per axis of a reading's position, metres, from the receiver's accuracy or the platform. */
export const sigmaOf = (reading: Pick<ReadingJson, 'gnss_accuracy_m' | 'platform'>): number =>
  positionSigmaM(reading.gnss_accuracy_m, PLATFORMS.find((p) => p === reading.platform) ?? null)

/** Around what is in question; where no line is in reach, wide enough to see the ones that are not far off. */
const MARGIN_M = { candidates: 60, none: 800 }

/** What the map shows for one item: everything in question with a margin. Null where nothing has a position. */
export function frameOf(item: ReviewItem): { bbox: [number, number, number, number]; key: string } | null {
  const { lon, lat, id } = item.reading
  const points = [
    ...item.candidates.map((c) => [c.lon, c.lat] as const),
    ...(lon === null || lat === null ? [] : [[lon, lat] as const]),
  ]
  const [first] = points
  if (!first) return null
  const lons = points.map((p) => p[0])
  const lats = points.map((p) => p[1])
  const marginLat = (item.candidates.length > 0 ? MARGIN_M.candidates : MARGIN_M.none) / 111_320
  const marginLon = marginLat / Math.max(0.05, Math.cos((first[1] * Math.PI) / 180))
  return {
    bbox: [Math.min(...lons) - marginLon, Math.min(...lats) - marginLat, Math.max(...lons) + marginLon, Math.max(...lats) + marginLat],
    key: `review-${id}`,
  }
}
