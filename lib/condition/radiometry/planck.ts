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
    const term = (power / n) * (x * x * x + (3 * x * x) / n + (6 * x) / (n * n) + 6 / (n * n * n))
    sum += term
    if (term < LEAST_TERM) break
  }
  return (15 / Math.PI ** 4) * sum
}

/** What a black body radiates in a band or altogether, W/m²; temperatures in K, 100 … 2000. Rises with the temperature throughout. */
export function exitance(temperatureK: number, spectrum: Spectrum): number {
  const total = STEFAN_BOLTZMANN * temperatureK ** 4
  if (spectrum === 'total') return total
  const [fromUm, toUm] = BANDS_UM[spectrum]
  return (bandFraction(toUm * temperatureK) - bandFraction(fromUm * temperatureK)) * total
}

/**
 * The temperature in K of a black body that radiates so much in a band or altogether, W/m².
 * @returns null for an exitance that no body of 100 … 2000 K has
 */
export function temperatureOf(exitanceWM2: number, spectrum: Spectrum): number | null {
  if (!(exitanceWM2 >= exitance(RADIANCE_K.least, spectrum)) || exitanceWM2 > exitance(RADIANCE_K.greatest, spectrum)) return null
  if (spectrum === 'total') return (exitanceWM2 / STEFAN_BOLTZMANN) ** 0.25
  // In reciprocal temperature the logarithm is nearly a line, so the secant closes in within a few steps from anywhere.
  let a = 1 / RADIANCE_K.greatest
  let b = 1 / RADIANCE_K.least
  let fa = Math.log(exitance(1 / a, spectrum) / exitanceWM2)
  let fb = Math.log(exitance(1 / b, spectrum) / exitanceWM2)
  for (let i = 0; i < 60 && Math.abs(b - a) > 1e-13 * b; i++) {
    const secant = b - (fb * (b - a)) / (fb - fa)
    const c = i % 3 === 2 ? (a + b) / 2 : secant // every third step halves, so that no end can stick
    const fc = Math.log(exitance(1 / c, spectrum) / exitanceWM2)
    if (fc === 0) return 1 / c
    if (fc > 0) {
      a = c
      fa = fc
    } else {
      b = c
      fb = fc
    }
    if (Math.abs(fc) < 1e-12) return 1 / c
  }
  return 2 / (a + b)
}
