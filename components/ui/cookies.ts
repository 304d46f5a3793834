import type { UnitSystem } from '@/lib/units/format'

/** Choices that the server reads too, so that the first paint is already right. */
export const THEME_COOKIE = 'theme'
export const UNITS_COOKIE = 'units'
export const PANELS_COOKIE = 'panels'
export const VISIT_COOKIE = 'visit'

export type ThemeChoice = 'light' | 'dark' | 'system'

export const asThemeChoice = (s: string | undefined): ThemeChoice => (s === 'light' || s === 'dark' ? s : 'system')
export const asUnitSystem = (s: string | undefined): UnitSystem | null => (s === 'us' || s === 'metric' ? s : null)

/** Keeps a choice for a year. Browser only. */
export function keepCookie(name: string, value: string): void {
  document.cookie = `${name}=${encodeURIComponent(value)}; path=/; max-age=31536000; samesite=lax`
}
