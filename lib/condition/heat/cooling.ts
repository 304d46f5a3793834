import { conductivityWPerMK, densityAtZeroKgPerM3, viscosityKgPerMS } from './air'
import type { Cylinder, Weather } from './weather'

const RADIANS = Math.PI / 180

/** An angle between wind and axis, folded into 0 … 90°. */
const foldedDeg = (angleDeg: number): number => {
  const turned = Math.abs(angleDeg) % 180
  return turned > 90 ? 180 - turned : turned
}

/** What wind at an angle to the axis cools, of what wind across it does: 0.388 along the axis, 1 across (IEEE Std 738-2012). */
export function windAngleFactor(angleDeg: number): number {
  // Exactly 1, and the usual case.
  if (angleDeg === 90) return 1
  const angle = foldedDeg(angleDeg) * RADIANS
  return 1.194 - Math.cos(angle) + 0.194 * Math.cos(2 * angle) + 0.368 * Math.sin(2 * angle)
}

/** A cylinder in a weather, with all that does not depend on its temperature worked out once. */
export interface Exchange {
  diameterM: number
  ambientC: number
  windMS: number
  angleFactor: number
  densityAtZeroKgPerM3: number
  naturalFactor: number
  radiationFactor: number
  ambientRadiation: number
  sunWPerM: number
}

const fourthPowerOfHundredKelvin = (temperatureC: number): number => {
  const square = ((temperatureC + 273) / 100) ** 2
  return square * square
}

/** Values within the ranges of `ranges.ts`. */
export const exchangeOf = ({ diameterM, emissivity, absorptivity }: Cylinder, weather: Weather): Exchange => ({
  diameterM, ambientC: weather.ambientC, windMS: weather.windMS, angleFactor: windAngleFactor(weather.windAngleDeg),
  densityAtZeroKgPerM3: densityAtZeroKgPerM3(weather.elevationM),
  // To the power of 0.75 by roots: a power would be most of what this costs.
  naturalFactor: 3.645 * Math.sqrt(diameterM * Math.sqrt(diameterM)),
  radiationFactor: 17.8 * diameterM * emissivity,
  ambientRadiation: fourthPowerOfHundredKelvin(weather.ambientC),
  sunWPerM: absorptivity * weather.sunWPerM2 * diameterM,
})

const filmOf = (exchange: Exchange, surfaceC: number): number => (surfaceC + exchange.ambientC) / 2
const densityOf = (exchange: Exchange, filmC: number): number => exchange.densityAtZeroKgPerM3 / (1 + 0.00367 * filmC)

/** Diameter × density × wind / viscosity, dimensionless. */
export function reynoldsNumber(exchange: Exchange, surfaceC: number): number {
  const filmC = filmOf(exchange, surfaceC)
  return (exchange.diameterM * densityOf(exchange, filmC) * exchange.windMS) / viscosityKgPerMS(filmC)
}

/** Forced convection in little wind, W/m; negative where the surface is colder than the air. */
export const forcedInLittleWindWPerM = (exchange: Exchange, surfaceC: number): number =>
  exchange.angleFactor * (1.01 + 1.35 * reynoldsNumber(exchange, surfaceC) ** 0.52)
  * conductivityWPerMK(filmOf(exchange, surfaceC)) * (surfaceC - exchange.ambientC)

/** Forced convection in much wind, W/m. */
export const forcedInMuchWindWPerM = (exchange: Exchange, surfaceC: number): number =>
  exchange.angleFactor * 0.754 * reynoldsNumber(exchange, surfaceC) ** 0.6
  * conductivityWPerMK(filmOf(exchange, surfaceC)) * (surfaceC - exchange.ambientC)

/** Natural convection, W/m; odd in the difference, because a power of a negative difference has no value. */
export function naturalWPerM(exchange: Exchange, surfaceC: number): number {
  const differenceK = surfaceC - exchange.ambientC
  const sizeK = Math.abs(differenceK)
  return exchange.naturalFactor * Math.sqrt(densityOf(exchange, filmOf(exchange, surfaceC))) * Math.sqrt(Math.sqrt(sizeK)) * differenceK
}

/** Reynolds number up to which the equation for little wind gives more than that for much wind: both are equal there. */
export const EQUAL_REYNOLDS = 1757.2532469148234

/** The largest of the three, W/m (IEEE Std 738-2012 recommends it at every wind speed). */
export function convectedWPerM(exchange: Exchange, surfaceC: number): number {
  const filmC = filmOf(exchange, surfaceC)
  const differenceK = surfaceC - exchange.ambientC
  const density = densityOf(exchange, filmC)
  const reynolds = (exchange.diameterM * density * exchange.windMS) / viscosityKgPerMS(filmC)
  // A power is most of the time of a balance, so only the larger of both is worked out, and by logarithm.
  const lnReynolds = Math.log(reynolds)
  const nusselt = reynolds < EQUAL_REYNOLDS ? 1.01 + 1.35 * Math.exp(0.52 * lnReynolds) : 0.754 * Math.exp(0.6 * lnReynolds)
  const forced = exchange.angleFactor * conductivityWPerMK(filmC) * nusselt
  return differenceK * Math.max(forced, exchange.naturalFactor * Math.sqrt(density) * Math.sqrt(Math.sqrt(Math.abs(differenceK))))
}

/** Radiation to surroundings at air temperature, W/m. */
export const radiatedWPerM = (exchange: Exchange, surfaceC: number): number =>
  exchange.radiationFactor * (fourthPowerOfHundredKelvin(surfaceC) - exchange.ambientRadiation)

/** What the current must bring for the surface to stay at this temperature: convected and radiated less the sun, W/m. */
export const netLossWPerM = (exchange: Exchange, surfaceC: number): number =>
  convectedWPerM(exchange, surfaceC) + radiatedWPerM(exchange, surfaceC) - exchange.sunWPerM
