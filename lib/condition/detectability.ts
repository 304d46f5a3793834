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
  /** How much hotter it would have been than its conductor, or, where the conductor was not read, than a splice of k 1. */
  shownK: number
  neededK: number
  detectable: boolean
}

/** What a forecast needs: everything of a picture but its temperatures. */
export type Conditions = Pick<Picture, 'conductor' | 'barrel' | 'currentA'> & { along?: Picture['along']; weather: Weather; besideConductor: boolean; errorK: number }

/**
 * Before a flight or after it: a picture is conclusive where a splice of the ratio would show so many times the error of what it is compared with.
 * @returns null where a value is out of range
 */
export function detectabilityAt(conditions: Conditions, policy: Policy): Detectability | null {
  const { conductor, barrel, currentA, weather, besideConductor, errorK, along } = conditions
  const { detectK, detectTimes } = policy.radiometry
  const bad = jointTemperature(conductor, barrel, detectK, currentA, weather)
  const other = besideConductor ? steadyTemperature(conductor, currentA, weather) : jointTemperature(conductor, barrel, 1, currentA, weather)
  if (!bad.ok || !other.ok) return null
  const neededK = detectTimes * errorK
  const otherC = other.value.kind === 'steady' ? other.value.temperatureC : null
  // A splice that runs away shows more than any picture needs.
  const aloneC = bad.value.kind === 'steady' ? bad.value.temperatureC : HEAT_RANGES.surfaceC[1]
  // The heat that it gives to its conductor does not show on it.
  const profile = along && axialProfile(conductor, barrel, detectK, along, currentA, weather)
  const badC = profile?.ok ? profile.value.centreC : aloneC
  if (otherC === null) return null
  return { k: detectK, shownK: badC - otherC, neededK, detectable: badC - otherC >= neededK }
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
  const besideConductor = conductorC !== undefined
  const errorK = besideConductor || sameFitting ? errors.differenceK : errors.temperatureK
  return detectabilityAt({ conductor, barrel, currentA, along, weather: inWind(calm, windMS), besideConductor, errorK }, policy)
}
