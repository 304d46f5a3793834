import type { Context } from './context'
import { barrelAreaMm2 } from './barrel'
import type { AlongLine } from './heat/fins'
import { lineResistanceOf } from './heat/line-resistance'
import { HEAT_RANGES } from './heat/ranges'
import type { Cylinder, HeatedCylinder } from './heat/weather'

/** Conductor and barrel of a splice as the heat balance takes them. */
export interface SpliceBodies {
  conductor: HeatedCylinder
  barrel: Cylinder
  /** True where the barrel's diameter is not on record, or was smaller than its conductor. */
  barrelTypical: boolean
}

/** A barrel whose length is not on record is so many diameters of its conductor long: usual ones, from memory, ±15 %. */
export const TYPICAL_LENGTHS = 25

const between = ([least, greatest]: readonly [number, number], value: number): number => Math.min(greatest, Math.max(least, value))

/** What barrel and conductor pass along the line; null where the conductor is not in the table. */
export function alongLineOf({ conductor, facts, policy }: Pick<Context, 'conductor' | 'facts' | 'policy'>, { barrel }: Pick<SpliceBodies, 'barrel'>): AlongLine | null {
  if (conductor === null) return null
  const { alongLineWMPerK, barrelLengthM } = HEAT_RANGES
  const passedBy = (areaMm2: number) => between(alongLineWMPerK, policy.radiometry.conductivityWPerMK * areaMm2 * 1e-6)
  return {
    barrelWMPerK: passedBy(barrelAreaMm2(barrel.diameterM * 1000, conductor.diameterMm)), conductorWMPerK: passedBy(conductor.areaAlMm2),
    barrelLengthM: between(barrelLengthM, (facts.barrelLengthMm ?? TYPICAL_LENGTHS * conductor.diameterMm) / 1000),
  }
}

/** Surfaces of conductor and barrel are taken alike. @returns null where the conductor is not in the table */
export function bodiesOf(context: Pick<Context, 'conductor' | 'facts' | 'policy'>, emissivity: number, absorptivity: number): SpliceBodies | null {
  const { conductor, facts, policy } = context
  if (conductor === null) return null
  const { diameterMm } = conductor
  const barrelTypical = facts.barrelOdMm === undefined || facts.barrelOdMm < diameterMm
  const barrelMm = barrelTypical || facts.barrelOdMm === undefined ? policy.side.typicalBarrelFactor * diameterMm : facts.barrelOdMm
  return {
    conductor: { diameterM: diameterMm / 1000, emissivity, absorptivity, resistance: lineResistanceOf(conductor) },
    barrel: { diameterM: barrelMm / 1000, emissivity, absorptivity },
    barrelTypical,
  }
}
