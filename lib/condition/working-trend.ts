import { YEAR_MS } from './limits'
import type { Trend } from './trend/trend'
import type { WorkingStep } from './working'
import { valueOf } from './working-side'

/** The line of a series and when it passes each edge. */
export function trendSteps(trend: Trend): WorkingStep[] {
  const { series, points, line, originMs, method, passings } = trend
  const { fit, quantile } = line
  const name = series === 'infrared' ? 'Infrared over the years' : `Side ${series} over the years`
  const ofLine = [
    valueOf('c', 'weighted middle of the readings', fit.centre, 'years'), valueOf('l', 'ln k there', fit.level), valueOf('b', 'growth', fit.slope, '1/year'),
  ]
  return [
    {
      title: `${name}: growth`,
      formula: method === 'readings' ? 'b = Σ w (t − c)(x − l) / Σ w (t − c)²' : 'b = (Σ w (t − c)(x − l) + b0/s0²) / (Σ w (t − c)² + 1/s0²)',
      inputs: points.flatMap(({ takenAtMs, k, uLnK }, i) => [
        valueOf(`t${i + 1}`, 'years since the first reading', (takenAtMs - originMs) / YEAR_MS, 'years'), valueOf(`x${i + 1}`, 'ln k', Math.log(k)),
        valueOf(`u${i + 1}`, 'its standard error, w = 1/u²', uLnK),
      ]),
      result: valueOf('b', 'growth of ln k', fit.slope, '1/year'), source: 'Least squares about the weighted middle; b0 and s0, the usual growth, are settings.',
    },
    ...passings.flatMap(({ class: edge, k, medianAtMs, earliestAtMs }): WorkingStep[] => medianAtMs === null || earliestAtMs === null ? [] : [
      {
        title: `${name}: ${edge} most likely`, formula: 't = c + (ln e − l) / b', inputs: [...ofLine, valueOf('e', `edge of ${edge}`, k)],
        result: valueOf('t', 'years since the first reading', (medianAtMs - originMs) / YEAR_MS, 'years'), source: 'The line at the edge.',
      },
      {
        title: `${name}: ${edge} at the earliest`, formula: 'l + b (t − c) + q √(ul² + un² + ub² (t − c)²) = ln e, not before the last reading',
        inputs: [
          ...ofLine, valueOf('q', 'quantile of the interval', quantile), valueOf('ul', 'error of l', fit.uLevel), valueOf('un', 'error of a next reading', fit.uNext),
          valueOf('ub', 'error of b', fit.uSlope, '1/year'), valueOf('e', `edge of ${edge}`, k),
        ],
        result: valueOf('t', 'years since the first reading', (earliestAtMs - originMs) / YEAR_MS, 'years'),
        source: method === 'readings' ? 'Student’s t, n − 2 degrees of freedom.' : 'Normal distribution.',
      },
    ]),
  ]
}
