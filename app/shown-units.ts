import { cookies } from 'next/headers'
import { asUnitSystem, UNITS_COOKIE } from '@/components/ui/cookies'
import type { UnitSystem } from '@/lib/units/format'
import { shownSettings } from './shown-settings'

/** The units that this user chose, else the utility's. */
export async function shownUnits(): Promise<UnitSystem> {
  return asUnitSystem((await cookies()).get(UNITS_COOKIE)?.value) ?? (await shownSettings()).unit_system
}
