import type { Assessment, Policy } from '@/lib/condition'
import { formatCurrent, formatRatio, formatTemperatureLimit, formatWind, type UnitSystem } from '@/lib/units/format'

/** What the figure rests on. */
export function limitBasis(limit: NonNullable<Assessment['limit']>, policy: Policy, system: UnitSystem): string {
  const { ambientC, windMS, sunWPerM2 } = policy.ratingWeather
  const section = limit.limitedBy === 'section'
    ? `The splice would allow ${formatCurrent(limit.spliceLineA)}; the section does not.`
    : `Taken at a ratio of ${formatRatio(limit.k)}, under which it is believed to lie, and ${formatTemperatureLimit(limit.spliceC, system)}.`
  const capped = limit.sectionFrom === 'rating'
    ? `Never over the section’s rating of ${formatCurrent(limit.sectionA)}.`
    : `No rating given: never over the ${formatCurrent(limit.sectionA)} of the conductor itself.`
  return `${section} ${capped} Rating weather: air ${formatTemperatureLimit(ambientC, system)}, wind ${formatWind(windMS, system)}, sun ${sunWPerM2} W/m².`
}
