import { alongLineOf, bodiesOf } from './body-of-splice'
import type { Context } from './context'
import type { AlongLine } from './heat/fins'
import { HEAT_RANGES } from './heat/ranges'
import type { Calm } from './heat/reference-wind'
import type { Cylinder, HeatedCylinder } from './heat/weather'
import { surveySun, type SunPlace } from './infrared-sun'
import { elevationOf } from './rating-weather'
import type { InfraredEvidence } from './types'

/** Standard errors of what goes into a k by infrared. */
export interface PictureErrors {
  /** Of both temperatures together, and of one against the other. */
  temperatureK: number
  differenceK: number
  currentShare: number
  /** Of the wind at the splice against the wind that the conductor shows, or against a measured wind. */
  windShare: number
  barrelShare: number
  emissivity: number
  sunWPerM2: number
}

const [LEAST_EMISSIVITY, GREATEST_EMISSIVITY] = HEAT_RANGES.emissivity

/** How well conductor and barrel give off heat, and whether that was noted or is the policy's. */
export interface SurfaceTaken {
  emissivity: number
  emissivityFrom: 'reading' | 'policy'
}

export function surfaceOf({ emissivity }: Pick<InfraredEvidence, 'emissivity'>, { radiometry }: Context['policy']): SurfaceTaken {
  const taken = emissivity ?? radiometry.emissivity
  return { emissivity: Math.min(GREATEST_EMISSIVITY, Math.max(LEAST_EMISSIVITY, taken)), emissivityFrom: emissivity === undefined ? 'policy' : 'reading' }
}

/** One picture as the heat balance takes it. */
export interface Picture {
  conductor: HeatedCylinder
  barrel: Cylinder
  /** True temperatures: corrected for emissivity and reflection before. */
  spliceC: number
  /** Of the own conductor, at least 1 m from the mouth of the barrel; absent where none was read. */
  conductorC?: number
  /** As measured; used only where the conductor does not show the wind. */
  windMS?: number
  /** Per subconductor, equal shares taken. */
  currentA: number
  calm: Calm
  /** What passes along the line; null where that does not count, by policy. */
  along: AlongLine | null
  errors: PictureErrors
}

/**
 * @returns null where something is missing without which no heat balance can be drawn: the splice's temperature, air, current, or a conductor of
 * the table
 */
export function pictureOf(evidence: InfraredEvidence, context: Context, place: SunPlace): Picture | null {
  const { policy, facts } = context
  const { radiometry } = policy
  const lineA = evidence.current30minA ?? evidence.lineCurrentA
  if (evidence.spliceTempC === undefined || evidence.ambientC === undefined || lineA === undefined) return null
  const { emissivity } = surfaceOf(evidence, policy)
  const bodies = bodiesOf(context, emissivity, emissivity)
  if (!bodies) return null
  const elevationM = elevationOf(place.elevationM, policy)
  const sun = surveySun(evidence, { ...place, elevationM }, policy)
  const ownConductor = evidence.referenceKind === undefined || evidence.referenceKind === 'own-conductor'
  const conductorC = ownConductor ? evidence.conductorTempC : undefined
  return {
    conductor: bodies.conductor, barrel: bodies.barrel, spliceC: evidence.spliceTempC, conductorC, windMS: evidence.windMS,
    currentA: lineA / Math.max(1, facts.subconductors),
    calm: { ambientC: evidence.ambientC, sunWPerM2: sun.wPerM2, elevationM },
    along: radiometry.heatAlongLine ? alongLineOf(context, bodies) : null,
    errors: {
      temperatureK: radiometry.uTemperatureK, differenceK: radiometry.uDifferenceK,
      currentShare: evidence.current30minA === undefined ? radiometry.uMomentCurrentShare : radiometry.uMeanCurrentShare,
      windShare: conductorC === undefined ? radiometry.uMeasuredWindShare : radiometry.uWindShare,
      barrelShare: bodies.barrelTypical ? radiometry.uTypicalBarrelShare : radiometry.uKnownBarrelShare,
      emissivity: radiometry.uEmissivity, sunWPerM2: sun.uWPerM2,
    },
  }
}
