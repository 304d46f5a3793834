import { ohmPerMAt } from './line-resistance'
import type { LineResistance } from './weather'

const HOURS_PER_YEAR = 8760

/** What a splice turns to heat over a piece of its conductor of the same length, W; 0 where it is the better of the two. */
export const extraLossW = (resistance: LineResistance, k: number, lengthM: number, currentA: number, temperatureC: number): number =>
  Math.max(0, currentA * currentA * (k - 1) * ohmPerMAt(resistance, temperatureC) * lengthM)

/**
 * Mean loss over loss at peak, from mean load over peak load (Buller and Woodrow's form).
 * @param share 0.3 or 0.15; sources disagree on which belongs to transmission
 */
export const lossFactor = (loadFactor: number, share: number): number => share * loadFactor + (1 - share) * loadFactor * loadFactor

/** Energy of a loss at peak over a year, kWh. */
export const yearlyKWh = (peakW: number, factor: number): number => (peakW * HOURS_PER_YEAR * factor) / 1000
