/** Logarithm of the gamma function for x > 0 (Lanczos, g = 7, n = 9), to 1e-13. */
function logGamma(x: number): number {
  const coefficients = [676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
    12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7]
  const shifted = x - 1
  const t = shifted + 7.5
  const sum = coefficients.reduce((total, c, i) => total + c / (shifted + i + 1), 0.99999999999980993)
  return 0.5 * Math.log(2 * Math.PI) + (shifted + 0.5) * Math.log(t) - t + Math.log(sum)
}

/**
 * Share of chi-square values with `degrees` of freedom that are larger: the regularised upper incomplete gamma function
 * (Abramowitz and Stegun 26.4.19), by series or continued fraction.
 */
export function chiSquareTail(chiSquare: number, degrees: number): number {
  if (degrees <= 0 || chiSquare <= 0) return 1
  const a = degrees / 2
  const x = chiSquare / 2
  const front = Math.exp(a * Math.log(x) - x - logGamma(a))
  if (x < a + 1) {
    let term = 1 / a
    let sum = term
    for (let n = 1; n < 1_000 && term > sum * 1e-15; n++) sum += term *= x / (a + n)
    return Math.max(1 - front * sum, 0)
  }
  let b = x + 1 - a
  let c = 1e300
  let d = 1 / b
  let fraction = d
  for (let i = 1; i < 1_000; i++) {
    const an = -i * (i - a)
    b += 2
    d = 1 / (an * d + b)
    c = b + an / c
    fraction *= d * c
    if (Math.abs(d * c - 1) < 1e-15) break
  }
  return Math.min(front * fraction, 1)
}
