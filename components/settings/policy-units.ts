import { convert, convertDifference } from '@/lib/units/convert'
import type { UnitSystem } from '@/lib/units/format'

/** How a setting is written on screen; the policy itself keeps SI and shares of one. */
interface Shown {
  label: string
  toShown(stored: number): number
  toStored(shown: number): number
}

const percent: Shown = { label: '%', toShown: (share) => share * 100, toStored: (shown) => shown / 100 }

const IN_US: Record<string, Shown> = {
  '°C': { label: '°F', toShown: (c) => convert(c, 'c', 'f'), toStored: (f) => convert(f, 'f', 'c') },
  'K': { label: '°F', toShown: (k) => convertDifference(k, 'c', 'f'), toStored: (f) => convertDifference(f, 'f', 'c') },
  'm/s': { label: 'mph', toShown: (ms) => convert(ms, 'm_s', 'mph'), toStored: (mph) => convert(mph, 'mph', 'm_s') },
  'm': { label: 'ft', toShown: (m) => convert(m, 'm', 'ft'), toStored: (ft) => convert(ft, 'ft', 'm') },
}

/** The unit and scale that a reader sees a setting in. */
export function shownIn(unit: string, system: UnitSystem): Shown {
  if (unit === 'share') return percent
  const us = system === 'us' ? IN_US[unit] : undefined
  return us ?? { label: unit === 'K' ? '°C' : unit, toShown: (v) => v, toStored: (v) => v }
}
