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

const known = (sections: BuiltSection[]): BuiltSection[] => sections.filter(({ plan }) => plan.circuit !== WITHOUT)

const ofSection = (n: number): { random: Random; peakShare: number } => {
  const random = new Random(4700 + n)
  return { random, peakShare: random.between(0.38, 0.72) }
}

/** What each section carried, hour by hour, as a control room exports it; the tap has no meter of its own. */
export function loadRows(sections: BuiltSection[]) {
  return known(sections).flatMap((s, n) => {
    const { random, peakShare } = ofSection(n)
    return Array.from({ length: LAST_HOUR + 1 }, (_, hour) => ({
      circuit: s.plan.circuit, section: s.section, taken_at: new Date(FIRST_HOUR_MS + hour * HOUR_MS).toISOString(),
      current_a: (peakShare * (HOURLY[hour % 24] ?? 1) * (hour >= COLD_FROM_HOUR ? 1.12 : 1) * random.between(0.97, 1.03) * s.ratingA).toFixed(0),
      quality: s.section === TAP.section ? 'estimated' : 'measured',
    }))
  })
}

/** The hour of the winter peak that the planner reckons with. */
const WINTER_PEAK = '2027-01-14T18:00:00-07:00'

/** Deepest cold over the cold evening of the autumn, and what moves over with the worst single outage elsewhere; common practice, no source. */
const WINTER_SHARE = 1.28
const TRANSFER_SHARE = [0.1, 0.3] as const
const GREATEST_PEAK_SHARE = 0.9

/**
 * What the planner expects of each section in the winter: the peak, and the flow after the worst single outage elsewhere. Onto a radial circuit
 * nothing moves over; of the circuit without telemetry the planner has nothing to go by either.
 */
export function plannedRows(sections: BuiltSection[]) {
  return known(sections).flatMap((s, n) => {
    const { random, peakShare } = ofSection(n)
    const peakA = Math.min(peakShare * WINTER_SHARE, GREATEST_PEAK_SHARE) * s.ratingA
    const row = (currentA: number, quality: string) => ({
      circuit: s.plan.circuit, section: s.section, taken_at: new Date(WINTER_PEAK).toISOString(), current_a: currentA.toFixed(0), quality,
    })
    const peak = row(peakA, 'expected-peak')
    return s.plan.radial ? [peak] : [peak, row(peakA + random.between(...TRANSFER_SHARE) * s.ratingA, 'post-contingency')]
  })
}
