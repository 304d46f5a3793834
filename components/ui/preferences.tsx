'use client'
import { createContext, use, useCallback, useMemo, useState, type ReactNode } from 'react'
import { useRouter } from 'next/navigation'
import type { UnitSystem } from '@/lib/units/format'
import { useMedia } from './use-media'
import { keepCookie, THEME_COOKIE, UNITS_COOKIE, type ThemeChoice } from './cookies'

interface Preferences {
  themeChoice: ThemeChoice
  setThemeChoice(choice: ThemeChoice): void
  unitSystem: UnitSystem
  setUnitSystem(system: UnitSystem): void
  /** IANA zone that times are shown in. */
  timeZone: string
  /** What this utility writes for phases A, B and C. */
  phaseLetters: Record<string, string>
}

const PreferencesContext = createContext<Preferences | null>(null)

function usePreferences(): Preferences {
  const value = use(PreferencesContext)
  if (!value) throw new Error('PreferencesProvider is missing above this component.')
  return value
}

export function PreferencesProvider({ themeChoice: theme, unitSystem: units, timeZone, phaseLetters, children }: {
  themeChoice: ThemeChoice; unitSystem: UnitSystem; timeZone: string; phaseLetters: Record<string, string>; children: ReactNode
}) {
  const router = useRouter()
  const [themeChoice, keepTheme] = useState(theme)
  const [unitSystem, keepUnits] = useState(units)
  const setThemeChoice = useCallback((choice: ThemeChoice) => {
    keepCookie(THEME_COOKIE, choice)
    document.documentElement.dataset.theme = choice
    keepTheme(choice)
  }, [])
  const setUnitSystem = useCallback((system: UnitSystem) => {
    keepCookie(UNITS_COOKIE, system)
    keepUnits(system)
    router.refresh()
  }, [router])
  const value = useMemo(() => ({ themeChoice, setThemeChoice, unitSystem, setUnitSystem, timeZone, phaseLetters }),
    [themeChoice, setThemeChoice, unitSystem, setUnitSystem, timeZone, phaseLetters])
  return <PreferencesContext value={value}>{children}</PreferencesContext>
}

/** The theme on screen: what was chosen, else what the system asks for. */
export function useTheme(): 'light' | 'dark' {
  const { themeChoice } = usePreferences()
  const systemDark = useMedia('(prefers-color-scheme: dark)')
  return themeChoice === 'system' ? (systemDark ? 'dark' : 'light') : themeChoice
}

export const useThemeChoice = (): [ThemeChoice, (choice: ThemeChoice) => void] => {
  const { themeChoice, setThemeChoice } = usePreferences()
  return [themeChoice, setThemeChoice]
}

/** The user's units: feet, °F, kcmil, or metres, °C, mm². */
export const useUnitSystem = (): [UnitSystem, (system: UnitSystem) => void] => {
  const { unitSystem, setUnitSystem } = usePreferences()
  return [unitSystem, setUnitSystem]
}

export const useTimeZone = (): string => usePreferences().timeZone
export const usePhaseLetters = (): Record<string, string> => usePreferences().phaseLetters
