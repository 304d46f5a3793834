/** Steps of the search for a bracket, K. */
const FIRST_STEP = 8
const SHORTEST_STEP = 1
const LONGEST_STEP = 40
const BEYOND = 1.1
const GOLDEN = (Math.sqrt(5) - 1) / 2

/**
 * The lowest x in [from, to] at which a function that starts at or below 0 reaches 0; null where it never does.
 * A hump that rises over 0 and falls again between two steps is looked for too: beyond it the heat grows faster than the cooling,
 * and what lies there is not where a splice comes to rest.
 */
export function lowestRoot(of: (x: number) => number, from: number, to: number, tolerance: number): number | null {
  let before = from
  let x = from
  let fBefore = -Infinity
  let fX = of(from)
  if (fX >= 0) return from
  let step = FIRST_STEP
  while (x < to) {
    const next = Math.min(to, x + step)
    const fNext = of(next)
    if (fNext >= 0) return brent(of, x, fX, next, fNext, tolerance)
    if (fX > fNext && fX > fBefore && x > from) {
      const top = topBetween(of, before, next, tolerance)
      const fTop = of(top)
      if (fTop >= 0) return brent(of, before, fBefore, top, fTop, tolerance)
    }
    // A little beyond where the last two points would reach 0, so that the bracket is short on its far side.
    const reach = fNext > fX ? (BEYOND * -fNext * (next - x)) / (fNext - fX) : LONGEST_STEP
    before = x
    fBefore = fX
    x = next
    fX = fNext
    step = Math.min(LONGEST_STEP, Math.max(SHORTEST_STEP, reach))
  }
  return null
}

/** Golden-section search for the top of a hump. */
function topBetween(of: (x: number) => number, from: number, to: number, tolerance: number): number {
  let low = from
  let high = to
  let left = high - GOLDEN * (high - low)
  let right = low + GOLDEN * (high - low)
  let fLeft = of(left)
  let fRight = of(right)
  while (high - low > Math.max(tolerance, 1e-6)) {
    if (fLeft >= fRight) {
      high = right
      right = left
      fRight = fLeft
      left = high - GOLDEN * (high - low)
      fLeft = of(left)
    } else {
      low = left
      left = right
      fLeft = fRight
      right = low + GOLDEN * (high - low)
      fRight = of(right)
    }
  }
  return (low + high) / 2
}

/** Root between two points of opposite sign: R. P. Brent, Algorithms for Minimization without Derivatives (1973), chapter 4. */
function brent(of: (x: number) => number, a0: number, fa0: number, b0: number, fb0: number, tolerance: number): number {
  let [a, fa, b, fb] = [a0, fa0, b0, fb0]
  let [c, fc] = [a, fa]
  let width = b - a
  let last = width
  for (;;) {
    if (fb > 0 === fc > 0) {
      c = a
      fc = fa
      width = last = b - a
    }
    if (Math.abs(fc) < Math.abs(fb)) [a, fa, b, fb, c, fc] = [b, fb, c, fc, b, fb]
    const close = 2 * Number.EPSILON * Math.abs(b) + tolerance / 2
    const half = (c - b) / 2
    if (Math.abs(half) <= close || fb === 0) return b
    const step = interpolated(a, fa, b, fb, c, fc, half)
    if (Math.abs(last) < close || Math.abs(fa) <= Math.abs(fb) || Math.abs(step) >= Math.min(1.5 * Math.abs(half), Math.abs(last / 2))
      || step * half < 0) {
      width = last = half
    } else {
      last = width
      width = step
    }
    a = b
    fa = fb
    b += Math.abs(width) > close ? width : Math.sign(half) * close
    fb = of(b)
  }
}

/** By the secant, or by the inverse parabola where three points differ. */
function interpolated(a: number, fa: number, b: number, fb: number, c: number, fc: number, half: number): number {
  const s = fb / fa
  if (a === c) return (2 * half * s) / (s - 1)
  const q = fa / fc
  const r = fb / fc
  return (s * (2 * half * q * (q - r) - (b - a) * (r - 1))) / -((q - 1) * (r - 1) * (s - 1))
}
