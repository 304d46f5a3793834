import type { Context } from './context'
import type { NoTrend } from './series-trends'
import type { Trend, TrendSeries } from './trend/trend'
import type { Reason } from './types'

/** How each series grows and when it may pass the next edge; of what does not grow, that. */
export function trendReasons(trends: readonly Trend[] | undefined, none: readonly NoTrend[], context: Context): Reason[] {
  const refused = none.map(({ series, why, points }): Reason => ({
    code: `trend-${why}`, values: { series, name: nameOf(series, context), leastYears: context.policy.trend.leastSpanYears }, readingIds: points.flatMap(({ readingIds }) => readingIds),
  }))
  const drawn = (trends ?? []).map((trend): Reason => {
    const { series, points, growing, growthPerYear, wide, accelerating, method } = trend
    const last = points.at(-1)
    const next = trend.passings.find(({ k }) => k > (last?.k ?? 0))
    return {
      code: growing ? 'trend' : 'trend-none',
      values: {
        series, name: nameOf(series, context), count: points.length, perYear: Math.expm1(growthPerYear), wide,
        accelerating, usual: method === 'with-usual-growth', class: next?.class ?? null, edge: next?.k ?? null,
        medianAtMs: next?.medianAtMs ?? null, earliestAtMs: next?.earliestAtMs ?? null, lastAtMs: last?.takenAtMs ?? null,
      },
      readingIds: points.flatMap(({ readingIds }) => readingIds),
    }
  })
  return [...drawn, ...refused]
}

const nameOf = (series: TrendSeries, { interfaces }: Context): string => (series === 'infrared' ? 'infrared' : interfaces.names[series])
