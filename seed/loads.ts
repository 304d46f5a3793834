import { TAP } from './landscape'
import type { BuiltSection } from './network'
import { Random } from './random'

/** Midnight, mountain daylight time, of a week in autumn that ends with the peak of a cold evening. */
const FIRST_HOUR_MS = Date.parse('2026-10-23T00:00:00-06:00')
const LAST_HOUR = 6 * 24 + 18
const COLD_FROM_HOUR = 6 * 24 + 6
const HOUR_MS = 3_600_000

/** No telemetry reaches the control room from it: nobody knows what it carries. */
const WITHOUT = '3420'

/** Shares of the daily peak by hour: low at night, a shoulder in the morning, the peak about 18:00 (from memory, no source). */
const HOURLY = [
  0.62, 0.6, 0.59, 0.59, 0.61, 0.68, 0.8, 0.88, 0.87, 0.84, 0.82, 0.8, 0.79, 0.78, 0.78, 0.81, 0.88, 0.97, 1, 0.97, 0.9, 0.82, 0.73, 0.66,
]

/** What each section carried, hour by hour, as a control room exports it; the tap has no meter of its own. */
export function loadRows(sections: BuiltSection[]) {
  return sections.filter(({ plan }) => plan.circuit !== WITHOUT).flatMap((s, n) => {
    const random = new Random(4700 + n)
    const peakShare = random.between(0.38, 0.72)
    return Array.from({ length: LAST_HOUR + 1 }, (_, hour) => ({
      circuit: s.plan.circuit, section: s.section, taken_at: new Date(FIRST_HOUR_MS + hour * HOUR_MS).toISOString(),
      current_a: (peakShare * (HOURLY[hour % 24] ?? 1) * (hour >= COLD_FROM_HOUR ? 1.12 : 1) * random.between(0.97, 1.03) * s.ratingA).toFixed(0),
      quality: s.section === TAP.section ? 'estimated' : 'measured',
    }))
  })
}
