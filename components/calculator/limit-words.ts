import { conductorByCode, type Assessment, type Policy } from '@/lib/condition'
import { interfacesOf } from '@/lib/condition/interfaces'
import { formatCurrent, formatRatio, formatTemperatureLimit, formatWind, type UnitSystem } from '@/lib/units/format'
import type { Inputs } from './address'

const ASK = 'Not known: ask the rating engineer.'

/** Why there is no figure for the current; only asked where there is none. */
export function noLimitText({ class: condition }: Assessment, of: Inputs): string {
  if (condition === 'unknown') return `${ASK} Without a class there is no current.`
  if (interfacesOf(of.kind).barrelSides.length === 0) return `${ASK} The heat balance knows compressed barrels only.`
  if (of.conductor === null || conductorByCode(of.conductor) === null) return `${ASK} It takes the conductor’s code word to reckon one.`
  if (condition === 'sound') return 'Better than its conductor: by its resistance it does not limit its section.'
  return `${ASK} With these figures no current comes out.`
}

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
