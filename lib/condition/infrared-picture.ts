import { ok, type Result } from '@/lib/result/result'
import { alongLineOf, bodiesOf } from './body-of-splice'
import { correctedBy, truePicture, type Shown } from './camera'
import type { Context } from './context'
import type { AlongLine } from './heat/fins'
import { HEAT_RANGES } from './heat/ranges'
import type { Calm } from './heat/reference-wind'
import type { Cylinder, HeatedCylinder } from './heat/weather'
import type { InconclusiveCause } from './infrared-causes'
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

const balanceEmissivity = (emissivity: number): number => Math.min(GREATEST_EMISSIVITY, Math.max(LEAST_EMISSIVITY, emissivity))

/** One picture as the heat balance takes it. */
export interface Picture {
  conductor: HeatedCylinder
  barrel: Cylinder
  /** True temperatures: corrected for emissivity and reflection where the camera's settings were noted. */
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
  /** What the camera showed and had set: another emissivity makes other temperatures of it. Null where they stand as given. */
  shown: Shown | null
}

/**
 * @returns null where something is missing without which no heat balance can be drawn: the splice's temperature, air, current, or a conductor of
 * the table
 */
export function pictureOf(
  given: InfraredEvidence, context: Context, place: SunPlace, { surfaces, shown, cause, evidence } = truePicture(given, context.facts, context.policy),
): Picture | null {
  const { policy, facts } = context
  const { radiometry } = policy
  const lineA = evidence.current30minA ?? evidence.lineCurrentA
  if (cause !== undefined || evidence.spliceTempC === undefined || evidence.ambientC === undefined || lineA === undefined) return null
  const bodies = bodiesOf(context, balanceEmissivity(surfaces.conductor.emissivity), balanceEmissivity(surfaces.conductor.emissivity))
  if (!bodies) return null
  const barrel = { ...bodies.barrel, emissivity: balanceEmissivity(surfaces.barrel.emissivity), absorptivity: balanceEmissivity(surfaces.barrel.emissivity) }
  const elevationM = elevationOf(place.elevationM, policy)
  const { latitudeDeg, longitudeDeg, lineAzimuthDeg } = place
  const sun = surveySun(evidence, { latitudeDeg, longitudeDeg, lineAzimuthDeg, elevationM }, policy)
  const ownConductor = evidence.referenceKind === undefined || evidence.referenceKind === 'own-conductor'
  const conductorC = ownConductor ? evidence.conductorTempC : undefined
  return {
    conductor: bodies.conductor, barrel, spliceC: evidence.spliceTempC, conductorC, windMS: evidence.windMS,
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
    shown: shown && { settings: shown.settings, splice: shown.splice, conductor: ownConductor ? shown.conductor : undefined },
  }
}

/**
 * The same picture had barrel and conductor other emissivities, sunlight taken in as it was: what the camera showed is then made of other temperatures.
 */
export function withEmissivities(picture: Picture, barrel: number, conductor: number): Result<Picture, InconclusiveCause> {
  const found: Picture = {
    ...picture, barrel: { ...picture.barrel, emissivity: balanceEmissivity(barrel) }, conductor: { ...picture.conductor, emissivity: balanceEmissivity(conductor) },
  }
  if (picture.shown === null) return ok(found)
  const corrected = correctedBy(picture.shown, found.barrel.emissivity, found.conductor.emissivity)
  if (!corrected.ok) return corrected
  found.spliceC = corrected.value.spliceTempC ?? picture.spliceC
  found.conductorC = corrected.value.conductorTempC
  return ok(found)
}
