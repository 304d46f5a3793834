/** Rational coefficients of the normal distribution function, highest power first: Hart et al. 1968, as given by West 2005. */
const NUMERATOR = [
  0.0352624965998911, 0.700383064443688, 6.37396220353165, 33.912866078383, 112.079291497871, 221.213596169931, 220.206867912376,
]
const DENOMINATOR = [
  0.0883883476483184, 1.75566716318264, 16.064177579207, 86.7807322029461, 296.564248779674, 637.333633378831, 793.826512519948,
  440.413735824752,
]

const horner = (coefficients: readonly number[], x: number): number => {
  let sum = 0
  for (let i = 0; i < coefficients.length; i++) sum = sum * x + (coefficients[i] ?? 0)
  return sum
}

/**
 * P(Z > z) of the standard normal distribution, relative error under 1e-8 down to 1e-300: the far tails matter where a
 * side is far from an edge. z may be infinite; NaN gives NaN.
 */
export function normalUpperTail(z: number): number {
  const size = Math.abs(z)
  const tail = size > 38 ? 0 : size < 7.07106781186547 ? centre(size) : farTail(size)
  return z < 0 ? 1 - tail : tail
}

const centre = (size: number): number => (Math.exp(-0.5 * size * size) * horner(NUMERATOR, size)) / horner(DENOMINATOR, size)

const farTail = (size: number): number => {
  let fraction = size + 0.65
  for (let i = 12; i >= 1; i--) fraction = size + i / fraction
  return Math.exp(-0.5 * size * size) / (fraction * Math.sqrt(2 * Math.PI))
}
