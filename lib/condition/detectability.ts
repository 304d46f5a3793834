import { steadyTemperature } from './heat/balance'
import { axialProfile } from './heat/fins'
import { jointTemperature } from './heat/joint'
import { HEAT_RANGES } from './heat/ranges'
import { inWind } from './heat/reference-wind'
import type { Weather } from './heat/weather'
import { windOf } from './infrared-error'
import type { Picture } from './infrared-picture'
import type { Policy } from './policy'

/** Whether a splice of the policy's ratio would have stood out of a picture. */
export interface Detectability {
  k: number
  /** How much hotter by its own heat it would have been than its conductor, or, where the conductor was not read, than a splice of k 1. */
  shownK: number
  neededK: number
  detectable: boolean
}

/** What a splice is compared with: its own conductor, another fitting of the same picture, or nothing but what the balance says of a good one. */
type Reference = 'conductor' | 'same-fitting' | 'none'

/** What a forecast needs: everything of a picture but its temperatures. */
export type Conditions = Pick<Picture, 'conductor' | 'barrel' | 'currentA'> & {
  along?: Picture['along']
  weather: Weather
  reference: Reference
  /** Standard error of what is compared, sun left out. */
  errorK: number
  /** Standard error of the sun on the line. */
  uSunWPerM2: number
}

/**
 * Before a flight or after it: a picture is conclusive where a splice of the ratio would show so many times the error of what it is compared with.
 * Only its own heat counts. The sun warms a thick barrel more than its conductor, good or bad: what a splice of k 1 gains so is no signal, and
 * what is not known of that sun is error.
 * @returns null where a value is out of range, or the conductor has no rest
 */
export function detectabilityAt(conditions: Conditions, policy: Policy): Detectability | null {
  const { detectK, detectTimes } = policy.radiometry
  const { errorK, uSunWPerM2, weather: { sunWPerM2 } } = conditions
  const lit = lightOf(conditions, sunWPerM2)
  const inSun = overReferenceK(conditions, detectK, lit)
  if (inSun === null) return null
  const dark = sunWPerM2 > 0 ? lightOf(conditions, 0) : lit
  const inDark = sunWPerM2 > 0 ? overReferenceK(conditions, detectK, dark) : inSun
  // A sky that nobody noted is taken as dark, and its error as that much sun.
  const ofGood = sunWPerM2 > 0 ? gainOfGood(conditions, lit, dark) : uSunWPerM2 > 0 ? gainOfGood(conditions, lightOf(conditions, uSunWPerM2), dark) : NO_GAIN
  const shownK = Math.min(inDark ?? inSun, inSun - (sunWPerM2 > 0 ? Math.max(0, ofGood.overReferenceK) : 0))
  const ofSunK = ofGood.unsureK * (sunWPerM2 > 0 ? uSunWPerM2 / sunWPerM2 : 1)
  const neededK = detectTimes * Math.hypot(errorK, ofSunK)
  return { k: detectK, shownK, neededK, detectable: shownK >= neededK }
}

/**
 * For a picture that was taken: in the wind that the conductor shows, else in the wind as measured.
 * Beside its conductor only the error of a difference counts; alone, the error of a temperature.
 * @returns null where no wind is known or a value is out of range: then the fixed rules stand
 */
export function detectabilityOf(picture: Picture, sameFitting: boolean, policy: Policy, shown = windOf(picture)): Detectability | null {
  const { conductor, barrel, currentA, calm, conductorC, windMS: measuredMS, along, errors } = picture
  const windMS = shown.ok ? shown.value : measuredMS
  if (windMS === undefined) return null
  const reference = conductorC !== undefined ? 'conductor' : sameFitting ? 'same-fitting' : 'none'
  const errorK = reference === 'none' ? errors.temperatureK : errors.differenceK
  return detectabilityAt({ conductor, barrel, currentA, along, weather: inWind(calm, windMS), reference, errorK, uSunWPerM2: errors.sunWPerM2 }, policy)
}

interface Gain {
  /** That a splice of k 1 gains over what it is compared with. */
  overReferenceK: number
  /** That is as unsure as the sun is. */
  unsureK: number
}

const NO_GAIN: Gain = { overReferenceK: 0, unsureK: 0 }

/** A sun, and how hot what a splice is compared with gets in it: asked once for a splice of any ratio. */
interface Light {
  sunWPerM2: number
  referenceC: number | null
}

const lightOf = (conditions: Conditions, sunWPerM2: number): Light =>
  ({ sunWPerM2, referenceC: conditions.reference === 'conductor' ? conductorOf(conditions, sunWPerM2) : shownC(conditions, 1, sunWPerM2) })

/** What a sun does to a splice of k 1. Beside another fitting it does the same to both; a splice alone is compared with what the sun is thought to make of it. */
function gainOfGood(conditions: Conditions, lit: Light, dark: Light): Gain {
  if (conditions.reference === 'same-fitting') return NO_GAIN
  if (conditions.reference === 'none') {
    return lit.referenceC === null || dark.referenceC === null ? NO_GAIN : { overReferenceK: 0, unsureK: Math.max(0, lit.referenceC - dark.referenceC) }
  }
  const [inLight, inDark] = [overReferenceK(conditions, 1, lit), overReferenceK(conditions, 1, dark)]
  const gainK = inLight === null || inDark === null ? 0 : Math.max(0, inLight - inDark)
  return { overReferenceK: gainK, unsureK: gainK }
}

function overReferenceK(conditions: Conditions, k: number, { sunWPerM2, referenceC }: Light): number | null {
  if (referenceC === null) return null
  const spliceC = shownC(conditions, k, sunWPerM2)
  return spliceC === null ? null : spliceC - referenceC
}

function conductorOf({ conductor, currentA, weather }: Conditions, sunWPerM2: number): number | null {
  const found = steadyTemperature(conductor, currentA, underSun(weather, sunWPerM2))
  return found.ok && found.value.kind === 'steady' ? found.value.temperatureC : null
}

/** In the middle of the barrel: the heat that a splice gives to its conductor does not show on it. One that runs away shows more than any picture needs. */
function shownC({ conductor, barrel, currentA, along, weather }: Conditions, k: number, sunWPerM2: number): number | null {
  const at = underSun(weather, sunWPerM2)
  const profile = along && axialProfile(conductor, barrel, k, along, currentA, at)
  if (profile?.ok) return profile.value.centreC
  const alone = jointTemperature(conductor, barrel, k, currentA, at)
  if (!alone.ok) return null
  return alone.value.kind === 'steady' ? alone.value.temperatureC : HEAT_RANGES.surfaceC[1]
}

const underSun = ({ ambientC, windMS, windAngleDeg, elevationM }: Weather, sunWPerM2: number): Weather =>
  ({ ambientC, windMS, windAngleDeg, sunWPerM2, elevationM })
