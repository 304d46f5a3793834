import { normalUpperTail } from './normal'

/** A side and its conductor reference over equal electrode spans, µΩ, with standard uncertainties. */
export interface RatioReading {
  sideUohm: number
  conductorUohm: number
  uSideUohm: number
  uConductorUohm: number
}

/** k: how many times the resistance of the same length of conductor. Dimensionless, 0.05 … 100 makes sense. */
export const ratioOf = (reading: RatioReading): number => reading.sideUohm / reading.conductorUohm

/**
 * u(k) / k, which is also u(ln k), by propagation of both errors.
 * @param correlation between the two errors, −1 … 1; one instrument shares its gain error, which makes the ratio more certain.
 */
export function relativeUncertainty(reading: RatioReading, correlation: number): number {
  const side = reading.uSideUohm / reading.sideUohm
  const conductor = reading.uConductorUohm / reading.conductorUohm
  return Math.sqrt(Math.max(0, side * side + conductor * conductor - 2 * correlation * side * conductor))
}

/**
 * P(k > edge) from the reading alone. The difference side − edge × conductor of two normal errors is normal, so this is
 * exact where a normal ratio would not be. Without any uncertainty it is a step.
 */
export function probabilityRatioOver(edge: number, reading: RatioReading, correlation: number): number {
  const excess = reading.sideUohm - edge * reading.conductorUohm
  const us = reading.uSideUohm
  const uc = edge * reading.uConductorUohm
  const variance = us * us + uc * uc - 2 * correlation * us * uc
  if (variance <= 0) return excess > 0 ? 1 : 0
  return normalUpperTail(-excess / Math.sqrt(variance))
}
