/** A reading of y at x; `u` its standard uncertainty where it is known. */
export interface FitPoint {
  x: number
  y: number
  u?: number
}

/** y = level + slope (x − centre), about the weighted centre of the readings, where level and slope err independently. */
export interface LineFit {
  centre: number
  level: number
  slope: number
  uLevel: number
  uSlope: number
  /** Standard deviation of a next reading about the true line. */
  uNext: number
  /** Scatter about the line, as y; absent where two readings leave none to see. */
  residualSd?: number
  /** Share of the scatter of y that the line explains; absent where y does not scatter. */
  r2?: number
}

interface Moments {
  weight: number
  centre: number
  level: number
  spread: number
  slope: number
  /** Weighted squares about the line and about the level. */
  residual: number
  total: number
}

/** Centred sums: raw normal equations lose half the digits of a date. */
function momentsOf(points: readonly FitPoint[], weightOf: (point: FitPoint) => number): Moments {
  let weight = 0
  let sumX = 0
  let sumY = 0
  for (const point of points) {
    const w = weightOf(point)
    weight += w
    sumX += w * point.x
    sumY += w * point.y
  }
  const centre = sumX / weight
  const level = sumY / weight
  let spread = 0
  let along = 0
  let total = 0
  for (const point of points) {
    const w = weightOf(point)
    const dx = point.x - centre
    const dy = point.y - level
    spread += w * dx * dx
    along += w * dx * dy
    total += w * dy * dy
  }
  const slope = spread > 0 ? along / spread : 0
  let residual = 0
  for (const point of points) residual += weightOf(point) * (point.y - level - slope * (point.x - centre)) ** 2
  return { weight, centre, level, spread, slope, residual, total }
}

const inverseVariance = ({ u }: FitPoint): number => 1 / ((u ?? 1) * (u ?? 1))

const r2Of = ({ residual, total }: Moments): number | undefined => (total > 0 ? 1 - residual / total : undefined)

/**
 * The line through three or more readings by least squares. Where every uncertainty is known they are the weights, and readings that scatter
 * more than their uncertainties widen everything: by chi-square over n − 2, never by less than 1. Else all weigh the same and the scatter
 * alone tells the uncertainty. Student's t with n − 2 degrees of freedom belongs to it.
 */
export function leastSquaresLine(points: readonly FitPoint[]): LineFit {
  const n = points.length
  if (points.every(({ u }) => u !== undefined && u > 0)) {
    const m = momentsOf(points, inverseVariance)
    const inflation = Math.sqrt(Math.max(1, m.residual / (n - 2)))
    const uOne = Math.sqrt(n / m.weight)
    return {
      centre: m.centre, level: m.level, slope: m.slope, uLevel: inflation / Math.sqrt(m.weight), uSlope: inflation / Math.sqrt(m.spread),
      uNext: inflation * uOne, residualSd: uOne * Math.sqrt(m.residual / (n - 2)), r2: r2Of(m),
    }
  }
  const m = momentsOf(points, () => 1)
  const residualSd = Math.sqrt(m.residual / (n - 2))
  return {
    centre: m.centre, level: m.level, slope: m.slope, uLevel: residualSd / Math.sqrt(n), uSlope: residualSd / Math.sqrt(m.spread),
    uNext: residualSd, residualSd, r2: r2Of(m),
  }
}

/** What is known of a slope before its readings, with its standard uncertainty. */
export interface KnownSlope {
  slope: number
  uSlope: number
}

/**
 * The line through readings too few or too close together to show their own scatter: their uncertainties are taken as they are, and the
 * slope they show is weighed against what is known of slopes before. One reading leaves that alone. The normal distribution belongs to it.
 * @param points one or more, each with its uncertainty
 */
export function knownUncertaintyLine(points: readonly FitPoint[], before: KnownSlope): LineFit {
  const m = momentsOf(points, inverseVariance)
  const weightBefore = 1 / (before.uSlope * before.uSlope)
  const weight = m.spread + weightBefore
  return {
    centre: m.centre, level: m.level, slope: (m.slope * m.spread + before.slope * weightBefore) / weight,
    uLevel: 1 / Math.sqrt(m.weight), uSlope: 1 / Math.sqrt(weight), uNext: Math.sqrt(points.length / m.weight),
  }
}

/** The slope that two or more readings with known uncertainties show by themselves. */
export function knownUncertaintySlope(points: readonly FitPoint[]): KnownSlope {
  const { slope, spread } = momentsOf(points, inverseVariance)
  return { slope, uSlope: 1 / Math.sqrt(spread) }
}

/** A line with the quantile that its interval takes. */
export interface Interval {
  fit: LineFit
  quantile: number
}

const baseVariance = ({ uLevel, uNext }: LineFit): number => uLevel * uLevel + uNext * uNext

/** The line at x, and the interval in which a next reading there would lie. */
export function lineAt({ fit, quantile }: Interval, x: number): { median: number; low: number; high: number } {
  const dx = x - fit.centre
  const median = fit.level + fit.slope * dx
  const half = quantile * Math.sqrt(baseVariance(fit) + (fit.uSlope * dx) ** 2)
  return { median, low: median - half, high: median + half }
}

/**
 * Where a rising line reaches y by its median, and by the upper end of its interval from `fromX` on (there, where it is over y already).
 * Null where the line does not rise: no growth has no day. Closed form: the upper end meets y where a quadratic is zero.
 */
export function reaches(interval: Interval, y: number, fromX: number): { median: number; earliest: number } | null {
  const { fit, quantile } = interval
  if (!(fit.slope > 0)) return null
  const away = y - fit.level
  const median = fit.centre + away / fit.slope
  if (lineAt(interval, fromX).high >= y) return { median, earliest: fromX }
  // away − slope·dx = q √(base + (u dx)²), squared; of the two roots the one on the rising branch, where the left side is not negative.
  const q2 = quantile * quantile
  const a = fit.slope * fit.slope - q2 * fit.uSlope * fit.uSlope
  const b = -2 * away * fit.slope
  const c = away * away - q2 * baseVariance(fit)
  const root = Math.sqrt(Math.max(0, b * b - 4 * a * c))
  const stable = -0.5 * (b + (b >= 0 ? root : -root))
  const first = Math.min(onRisingBranch(stable / a, away, fit, fromX), onRisingBranch(c / stable, away, fit, fromX))
  return { median, earliest: Math.min(fit.centre + first, median) }
}

/** A root of the quadratic where it is one of the upper end's, else infinitely far. */
const onRisingBranch = (dx: number, away: number, { slope, centre }: LineFit, fromX: number): number =>
  (away - slope * dx >= -1e-12 && centre + dx >= fromX ? dx : Infinity)
