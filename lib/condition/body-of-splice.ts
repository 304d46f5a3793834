import type { Context } from './context'
import { lineResistanceOf } from './heat/line-resistance'
import type { Cylinder, HeatedCylinder } from './heat/weather'

/** Conductor and barrel of a splice as the heat balance takes them. */
export interface SpliceBodies {
  conductor: HeatedCylinder
  barrel: Cylinder
  /** True where the barrel's diameter is not on record, or was smaller than its conductor. */
  barrelTypical: boolean
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
