import { err, ok, type Result } from '@/lib/result/result'
import { densityKgPerM3, conductivityWPerMK, viscosityKgPerMS } from './air'
import { EQUAL_REYNOLDS, exchangeOf, naturalWPerM, radiatedWPerM } from './cooling'
import { kFromTemperature, type NoK } from './joint'
import { ohmPerMAt } from './line-resistance'
import { bodyRefusal, currentRefusal, HEAT_RANGES, surfaceRefusal, type Refusal } from './ranges'
import type { Cylinder, HeatedCylinder, Weather } from './weather'

/** Air, sun and elevation; the wind is what is sought. */
export type Calm = Omit<Weather, 'windMS' | 'windAngleDeg'>

/** The same air and sun with a wind across the line. */
export const inWind = ({ ambientC, sunWPerM2, elevationM }: Calm, windMS: number): Weather =>
  ({ ambientC, windMS, windAngleDeg: 90, sunWPerM2, elevationM })

/**
 * Why no wind fits: the conductor is not warmer than the air, hotter than still air would leave it, or so cool that it takes more wind than 30 m/s.
 */
export type NoWind = { kind: 'no-rise' } | { kind: 'hotter-than-still-air' } | { kind: 'too-much-wind'; windMS: number }

/** A smaller rise over the air is none: no instrument reads it, and wind is worked out by dividing by it. */
const LEAST_RISE_K = 0.001

/** Nusselt number up to which the equation for little wind gives the lower wind, which is the one that counts. */
const EQUAL_NUSSELT = 0.754 * EQUAL_REYNOLDS ** 0.6

/**
 * The wind across the line that leaves a conductor at its measured temperature, m/s: what the splice beside it stands in too, so that an
 * error of the wind cancels. Closed form, by inverting both forced-convection equations of IEEE Std 738-2012.
 * @param conductorC at least 1 m from the splice
 * @param currentA per subconductor
 */
export function effectiveWindMS(conductor: HeatedCylinder, conductorC: number, currentA: number, calm: Calm): Result<number, Refusal | NoWind> {
  const still = inWind(calm, 0)
  const refusal = bodyRefusal(conductor, still) ?? currentRefusal(currentA) ?? surfaceRefusal(conductorC)
  if (refusal) return err(refusal)
  const riseK = conductorC - calm.ambientC
  if (riseK < LEAST_RISE_K) return err({ kind: 'no-rise' })
  const exchange = exchangeOf(conductor, still)
  const convected = currentA * currentA * ohmPerMAt(conductor.resistance, conductorC) + exchange.sunWPerM - radiatedWPerM(exchange, conductorC)
  const filmC = (conductorC + calm.ambientC) / 2
  const nusselt = convected / (conductivityWPerMK(filmC) * riseK)
  if (convected < naturalWPerM(exchange, conductorC) || nusselt < 1.01) return err({ kind: 'hotter-than-still-air' })
  const reynolds = nusselt < EQUAL_NUSSELT ? ((nusselt - 1.01) / 1.35) ** (1 / 0.52) : (nusselt / 0.754) ** (1 / 0.6)
  const windMS = (reynolds * viscosityKgPerMS(filmC)) / (conductor.diameterM * densityKgPerM3(filmC, calm.elevationM))
  return windMS > HEAT_RANGES.windMS[1] ? err({ kind: 'too-much-wind', windMS }) : ok(windMS)
}

export interface KByConductor {
  k: number
  windMS: number
}

/** k of a splice from its own and its conductor's temperature at one current: the wind from the conductor, then the splice in that wind. */
export function kByReferenceConductor(
  conductor: HeatedCylinder, barrel: Cylinder, conductorC: number, spliceC: number, currentA: number, calm: Calm,
): Result<KByConductor, Refusal | NoWind | NoK> {
  const wind = effectiveWindMS(conductor, conductorC, currentA, calm)
  if (!wind.ok) return wind
  const k = kFromTemperature(conductor, barrel, spliceC, currentA, inWind(calm, wind.value))
  return k.ok ? ok({ k: k.value, windMS: wind.value }) : k
}
