import type { Assessment, Policy } from '@/lib/condition'
import { formatAllowed, formatAlong, formatCurrent, formatRatio, formatTemperatureLimit, formatTimesIn, formatWind, type UnitSystem } from '@/lib/units/format'

/** What the figure rests on. */
export function limitBasis(limit: NonNullable<Assessment['limit']>, policy: Policy, system: UnitSystem): string {
  const { ambientC, windMS, sunWPerM2, elevationM, emissivity } = policy.ratingWeather
  const section = limit.limitedBy === 'section'
    ? `The splice would allow ${formatAllowed(limit.spliceLineA)}; the section does not.`
    : `Taken at a ratio of ${formatRatio(limit.k)}, under which it lies ${formatTimesIn(policy.limit.upperShare)}, and ${formatTemperatureLimit(limit.spliceC, system)}.`
  const capped = limit.sectionFrom === 'rating'
    ? `Never over the section’s rating of ${formatCurrent(limit.sectionA)}.`
    : `No rating given: never over the ${formatCurrent(limit.sectionA)} of the conductor itself. Where its section is rated lower, that holds.`
  return `${section} ${capped} Rating weather: air ${formatTemperatureLimit(ambientC, system)}, wind ${formatWind(windMS, system)}, sun ${sunWPerM2} W/m², elevation ${formatAlong(elevationM, system)}, emissivity ${emissivity}.`
}

/** Whether the figure is the splice's or a given rating's: what a conductor carries is no rating of its section, which may be anything less. */
export const isFigure = ({ limitedBy, sectionFrom }: Pick<NonNullable<Assessment['limit']>, 'limitedBy' | 'sectionFrom'>): boolean =>
  limitedBy === 'splice' || sectionFrom === 'rating'

/** What was taken for what nobody put in, each on the side that allows less. */
export function assumedText({ barrel, limitYears }: { barrel: boolean; limitYears: number }): string {
  return [
    barrel ? ' No barrel given: reckoned for a small one, so that it is not too high.' : '',
    limitYears > 0 ? ` No day given: reckoned as if read ${limitYears === 1 ? 'a year' : `${Number(limitYears.toFixed(1))} years`} ago, so that it is not too high for an old reading.` : '',
  ].join('')
}
