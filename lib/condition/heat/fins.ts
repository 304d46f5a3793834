import { err, ok, type Result } from '@/lib/result/result'
import { steady } from './balance'
import { exchangeOf, netLossWPerM } from './cooling'
import { jointBody, jointRefusal } from './joint'
import { ohmPerMK } from './line-resistance'
import { currentRefusal, firstRefusal, type Refusal } from './ranges'
import type { Cylinder, HeatedCylinder, Weather } from './weather'

/** Conductivity times metal area, W·m/K: what it passes along the line for a kelvin a metre. */
export interface AlongLine {
  barrelWMPerK: number
  conductorWMPerK: number
  /** 0.1 … 1.5 m. */
  barrelLengthM: number
}

export interface AxialProfile {
  /** Without heat along the line, °C. */
  spliceAloneC: number
  conductorFarC: number
  centreC: number
  mouthC: number
  /** Distance over which the conductor's excess falls to 1/e, m. */
  decayM: number
}

/** Neither end comes to rest, or the heat of the current grows faster with temperature than the cooling: no profile is steady. */
export interface NoProfile { kind: 'runaway' }

const HALF_STEP_K = 1e-3

/** Cooling that a kelvin adds, less the heat that it adds, W/(m·K). */
function netSlope(body: HeatedCylinder, surfaceC: number, currentA: number, weather: Weather): number {
  const exchange = exchangeOf(body, weather)
  const rise = netLossWPerM(exchange, surfaceC + HALF_STEP_K) - netLossWPerM(exchange, surfaceC - HALF_STEP_K)
  return rise / (2 * HALF_STEP_K) - currentA * currentA * ohmPerMK(body.resistance)
}

/**
 * Temperatures along a splice and its conductor when heat runs along the line: linearised fins of a barrel between two long conductors.
 * The sides are taken as equal. Limits leave it out, which is the cautious side.
 */
export function axialProfile(
  conductor: HeatedCylinder, barrel: Cylinder, k: number, along: AlongLine, currentA: number, weather: Weather,
): Result<AxialProfile, Refusal | NoProfile> {
  const { barrelLengthM, barrelWMPerK, conductorWMPerK } = along
  const refusal = jointRefusal(conductor, barrel, weather) ?? firstRefusal({ k, barrelLengthM, alongLineWMPerK: barrelWMPerK })
    ?? firstRefusal({ alongLineWMPerK: conductorWMPerK }) ?? currentRefusal(currentA)
  if (refusal) return err(refusal)
  const splice = jointBody(conductor, barrel, k)
  const spliceRest = steady(splice, currentA, weather)
  const conductorRest = steady(conductor, currentA, weather)
  if (spliceRest.kind === 'runaway' || conductorRest.kind === 'runaway') return err({ kind: 'runaway' })
  const spliceAloneC = spliceRest.temperatureC
  const conductorFarC = conductorRest.temperatureC
  const spliceSlope = netSlope(splice, spliceAloneC, currentA, weather)
  const conductorSlope = netSlope(conductor, conductorFarC, currentA, weather)
  if (!(spliceSlope > 0 && conductorSlope > 0)) return err({ kind: 'runaway' })
  const spliceM = Math.sqrt(spliceSlope / barrelWMPerK)
  const conductorM = Math.sqrt(conductorSlope / conductorWMPerK)
  const half = (spliceM * barrelLengthM) / 2
  const stiffness = (barrelWMPerK * spliceM) / (conductorWMPerK * conductorM)
  const amplitude = (conductorFarC - spliceAloneC) / (Math.cosh(half) + stiffness * Math.sinh(half))
  return ok({
    spliceAloneC, conductorFarC, centreC: spliceAloneC + amplitude, mouthC: spliceAloneC + amplitude * Math.cosh(half), decayM: 1 / conductorM,
  })
}

/** Conductor's temperature at a distance from the mouth of the barrel, °C. */
export const conductorAtC = ({ conductorFarC, mouthC, decayM }: AxialProfile, fromMouthM: number): number =>
  conductorFarC + (mouthC - conductorFarC) * Math.exp(-fromMouthM / decayM)
