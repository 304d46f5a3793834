import { YEAR_MS } from '../limits'
import type { Policy } from '../policy'
import type { Edges, MeasuredClass } from '../types'
import {
  knownUncertaintyLine, leastSquaresLine, lineAt, reaches, type FitPoint, type Interval, type LineFit,
} from './line-fit'
import { quantileOf } from './quantile'

/** A side of its own, or the splice as infrared sees it; never mixed. */
export type TrendSeries = 'A' | 'B' | 'infrared'

export interface TrendPoint {
  takenAtMs: number
  k: number
  uLnK: number
  readingIds: (number | string)[]
}

/** When a line passes a class edge: by its median, and at the earliest by the upper end of its interval. */
export interface Passing {
  class: Exclude<MeasuredClass, 'sound'>
  k: number
  /** Null: no growth, so no day. */
  medianAtMs: number | null
  earliestAtMs: number | null
}

/** How ln k of one series has grown since its last repair. */
export interface Trend {
  series: TrendSeries
  points: TrendPoint[]
  /**
   * 'readings': least squares weighted by the uncertainties of three or more readings. 'with-usual-growth': fewer, or too close together to
   * show their scatter, weighed against what is known of growth before.
   */
  method: 'readings' | 'with-usual-growth'
  /** Growth of ln k per year with its standard uncertainty: 0.03 is 3 % a year. */
  growthPerYear: number
  uGrowthPerYear: number
  growing: boolean
  /** Three readings: the interval is wide because one degree of freedom is left. */
  wide: boolean
  /** Each step of the last readings was steeper than the one before; contact ageing ends so. */
  accelerating: boolean
  passings: Passing[]
  /** The line in years from `originMs` and the quantile of its interval, for drawing and for checking by hand. */
  line: Interval
  originMs: number
}

/** Points, oldest first, of one series; two or more, else there is nothing to draw. */
export function trendOf(series: TrendSeries, points: readonly TrendPoint[], edges: Edges, policy: Policy): Trend | null {
  const originMs = points[0]?.takenAtMs
  const lastMs = points.at(-1)?.takenAtMs
  if (originMs === undefined || lastMs === undefined || points.length < 2) return null
  const { line, method } = lineThrough(points, originMs, policy)
  const { fit } = line
  return {
    series, points: [...points], method, growthPerYear: fit.slope, uGrowthPerYear: fit.uSlope, growing: fit.slope > 0,
    wide: method === 'readings' && points.length === 3, accelerating: accelerates(points), line, originMs,
    passings: WORSE_THAN_SOUND.map((name) => passing(name, edges[name], line, originMs, lastMs)),
  }
}

const WORSE_THAN_SOUND = ['watch', 'degraded', 'urgent', 'critical'] as const

function passing(name: Passing['class'], k: number, line: Interval, originMs: number, lastMs: number): Passing {
  const found = reaches(line, Math.log(k), (lastMs - originMs) / YEAR_MS)
  return { class: name, k, medianAtMs: found && msAfter(originMs, found.median), earliestAtMs: found && msAfter(originMs, found.earliest) }
}

const msAfter = (originMs: number, years: number): number => Math.round(originMs + years * YEAR_MS)

function lineThrough(points: readonly TrendPoint[], originMs: number, policy: Policy): { line: Interval; method: Trend['method'] } {
  const { trend } = policy
  const upper = (1 + trend.interval) / 2
  const fitPoints: FitPoint[] = points.map(({ takenAtMs, k, uLnK }) => ({
    x: (takenAtMs - originMs) / YEAR_MS, y: Math.log(k), u: Math.max(uLnK, LEAST_U),
  }))
  const spanYears = fitPoints.at(-1)?.x ?? 0
  if (points.length > 2 && spanYears >= trend.leastSpanYears) {
    return { line: { fit: leastSquaresLine(fitPoints), quantile: quantileOf(upper, points.length - 2) }, method: 'readings' }
  }
  const before = { slope: trend.growthPerYear, uSlope: trend.uGrowthPerYear }
  return { line: { fit: knownUncertaintyLine(fitPoints, before), quantile: quantileOf(upper, Infinity) }, method: 'with-usual-growth' }
}

/** A policy may take all error from an instrument; no weight is infinite all the same. */
const LEAST_U = 1e-6

function accelerates(points: readonly TrendPoint[]): boolean {
  if (points.length < 4) return false
  const slopes: number[] = []
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1], points[i]]
    if (!a || !b || b.takenAtMs === a.takenAtMs) return false
    slopes.push(Math.log(b.k / a.k) / (b.takenAtMs - a.takenAtMs))
  }
  return slopes.every((slope, i) => i === 0 || slope > (slopes[i - 1] ?? slope))
}

/** The ratio by the line at a time, with the interval in which a next reading would lie; times in ms since 1970 UTC. */
export function trendAt(trend: Pick<Trend, 'line' | 'originMs'>, atMs: number): { k: number; lowK: number; highK: number } {
  const { median, low, high } = lineAt(trend.line, (atMs - trend.originMs) / YEAR_MS)
  return { k: Math.exp(median), lowK: Math.exp(low), highK: Math.exp(high) }
}

/** The line of a single reading: its own uncertainty and what is known of growth before. */
export function singleReadingLine(k: number, uLnK: number, policy: Policy): Interval {
  const u = Math.max(uLnK, LEAST_U)
  const fit: LineFit = {
    centre: 0, level: Math.log(k), slope: policy.trend.growthPerYear, uLevel: u, uSlope: policy.trend.uGrowthPerYear, uNext: u,
  }
  return { fit, quantile: quantileOf((1 + policy.trend.interval) / 2, Infinity) }
}
