/** Rational coefficients of the normal distribution function, highest power first: Hart et al. 1968, as given by West 2005. Written out: a class takes a score of tails. */
const numerator = (x: number): number =>
  (((((0.0352624965998911 * x + 0.700383064443688) * x + 6.37396220353165) * x + 33.912866078383) * x + 112.079291497871) * x + 221.213596169931) * x
  + 220.206867912376
const denominator = (x: number): number =>
  ((((((0.0883883476483184 * x + 1.75566716318264) * x + 16.064177579207) * x + 86.7807322029461) * x + 296.564248779674) * x + 637.333633378831) * x
    + 793.826512519948) * x + 440.413735824752

/**
 * P(Z > z) of the standard normal distribution, relative error under 1e-8 down to 1e-300: the far tails matter where a
 * side is far from an edge. z may be infinite; NaN gives NaN.
 */
export function normalUpperTail(z: number): number {
  const size = Math.abs(z)
  const tail = size > 38 ? 0 : size < 7.07106781186547 ? centre(size) : farTail(size)
  return z < 0 ? 1 - tail : tail
}

const centre = (size: number): number => (Math.exp(-0.5 * size * size) * numerator(size)) / denominator(size)

const farTail = (size: number): number => {
  let fraction = size + 0.65
  for (let i = 12; i >= 1; i--) fraction = size + i / fraction
  return Math.exp(-0.5 * size * size) / (fraction * Math.sqrt(2 * Math.PI))
}
