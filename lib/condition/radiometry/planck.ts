/** Second radiation constant h c / k in µm·K and the Stefan-Boltzmann constant in W/(m² K⁴): exact SI of 2019, CODATA 2018. */
export const C2_UM_K = 14387.76877503933
export const STEFAN_BOLTZMANN = 5.670374419e-8

/** Terms of the series below this change nothing in double precision. */
const LEAST_TERM = 1e-16
/** Under this x the sum converges slowly and the power series of its remainder at once. */
const SMALL_X = 0.1

/** Wavelengths that a camera sees, µm. */
export const BANDS_UM = { lw: [7.5, 14], mw: [3, 5] } as const
export type Band = keyof typeof BANDS_UM
/** 'total': all wavelengths, the T⁴ law. */
export type Spectrum = Band | 'total'

/** Absolute temperatures for which exitances are given, K: the coldest sky up to white heat. */
export const RADIANCE_K = { least: 100, greatest: 2000 } as const

/**
 * Share of a black body's radiation below a wavelength, by wavelength times temperature in µm·K: 15/π⁴ Σ e^(−nx)/n (x³ + 3x²/n + 6x/n² + 6/n³)
 * with x = c₂/(λT). Any value from 0 upwards; NaN and below 0 give 0.
 * @returns 0 … 1
 */
export function bandFraction(wavelengthTemperatureUmK: number): number {
  if (!(wavelengthTemperatureUmK > 0)) return 0
  const x = C2_UM_K / wavelengthTemperatureUmK
  if (x < SMALL_X) return 1 - (15 / Math.PI ** 4) * x ** 3 * (1 / 3 - x / 8 + (x * x) / 60 - x ** 4 / 5040)
  const step = Math.exp(-x)
  let power = 1
  let sum = 0
  for (let n = 1; n < 1000; n++) {
    power *= step
    const share = 1 / n
    const term = power * share * (x * x * x + share * (3 * x * x + share * (6 * x + share * 6)))
    sum += term
    if (term < LEAST_TERM) break
  }
  return (15 / Math.PI ** 4) * sum
}

/** What a black body radiates in a band or altogether, W/m²; temperatures in K, 100 … 2000. Rises with the temperature throughout. */
export function exitance(temperatureK: number, spectrum: Spectrum): number {
  const square = temperatureK * temperatureK
  const total = STEFAN_BOLTZMANN * square * square
  if (spectrum === 'total') return total
  const bandUm = BANDS_UM[spectrum]
  return (bandFraction(bandUm[1] * temperatureK) - bandFraction(bandUm[0] * temperatureK)) * total
}
