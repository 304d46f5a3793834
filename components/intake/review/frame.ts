import type { ReadingJson, ReviewItem } from '@/lib/contract/contract'

/** Standard deviation per axis by platform where the receiver gave no accuracy, metres; the 68 % radius is 1.515 of it. */
const PLATFORM_SIGMA_M: Record<string, number> = {
  ground: 8,
  bucket: 5,
  ladder: 5,
  line_platform: 5,
  line_robot: 5,
  uncrewed: 5,
  helicopter: 15,
}

export const sigmaOf = (reading: Pick<ReadingJson, 'gnss_accuracy_m' | 'platform'>): number =>
  reading.gnss_accuracy_m !== null ? reading.gnss_accuracy_m / 1.515 : (PLATFORM_SIGMA_M[reading.platform ?? ''] ?? 8)

/** What the map shows for one item: everything in question with a margin of at least 60 m. Null where nothing has a position. */
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
  const marginLat = 60 / 111_320
  const marginLon = marginLat / Math.max(0.05, Math.cos((first[1] * Math.PI) / 180))
  return {
    bbox: [Math.min(...lons) - marginLon, Math.min(...lats) - marginLat, Math.max(...lons) + marginLon, Math.max(...lats) + marginLat],
    key: `review-${id}`,
  }
}
