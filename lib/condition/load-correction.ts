/**
 * Rules of thumb for a temperature rise at another load or wind, for pictures of which the heat balance cannot tell. The balance itself rises
 * by powers of the current of 2.08 to 2.29 in a wind of 1 m/s and 1.83 to 1.88 in still air (computed).
 */

/** Powers of the current: 1.6 to 2.0 are published for switchgear (training-body tip of 16 Oct 2023); 1.6 is still air and too low for a line, so 2 is taken and 1.6 to 2.2 shown. */
const POWERS = { low: 1.6, taken: 2, high: 2.2 } as const

/** The rating is at most so many times the current: further no rule carries (our own choice, no source). */
const GREATEST_RATIO = 4

export interface RiseAtRating { lowK: number; takenK: number; highK: number }

/** A rise scaled by a power of the current: ΔT (I_to / I)^n. Currents in one unit, over zero. */
export const riseAtCurrentK = (riseK: number, fromA: number, toA: number, power: number): number => riseK * (toA / fromA) ** power

/**
 * What a rise would be at the section's rating. Null for no rise, at the rating or over it, and under a quarter of it.
 * @param riseK over the conductor or over the air, K
 * @param loadShare current over rating
 */
export function riseAtRating(riseK: number, loadShare: number): RiseAtRating | null {
  if (!(riseK > 0) || !(loadShare < 1) || !(loadShare * GREATEST_RATIO >= 1)) return null
  const at = (power: number): number => riseAtCurrentK(riseK, loadShare, 1, power)
  return { lowK: at(POWERS.low), takenK: at(POWERS.taken), highK: at(POWERS.high) }
}

/** Rise in wind of 1 m/s over that in wind of so many whole m/s (from memory, no public copy found; near V^0.449). */
const WIND_FACTORS = [1, 1.36, 1.64, 1.86, 2.06, 2.23, 2.4, 2.54] as const

/** How many times more a rise would be in wind of 1 m/s, by a table that is often used; null under 1 and over 8 m/s. Between its rows by a straight line. */
export function windFactor(windMS: number): number | null {
  const below = WIND_FACTORS[Math.floor(windMS) - 1]
  if (below === undefined) return null
  const above = WIND_FACTORS[Math.floor(windMS)]
  if (above === undefined) return windMS === WIND_FACTORS.length ? below : null
  return below + (above - below) * (windMS - Math.floor(windMS))
}
