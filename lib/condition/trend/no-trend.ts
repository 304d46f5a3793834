import { YEAR_MS } from '../limits'
import type { Policy } from '../policy'
import { inConflict } from '../posterior'
import type { TrendPoint } from './trend'

/**
 * Why no line is drawn through the readings of a series; null where one may be. Two that follow each other contradict where they cannot both be
 * right and the ratio fell, or rose within a time too short for ageing. Readings that agree but lie so close together tell no growth either.
 * @param points oldest first
 */
export function whyNoTrend(points: readonly TrendPoint[], policy: Policy): 'contradicted' | 'too-short' | null {
  const [first, last] = [points[0], points.at(-1)]
  if (!first || !last || points.length < 2) return null
  const leastMs = policy.trend.leastSpanYears * YEAR_MS
  const contradicts = points.some((b, i) => {
    const a = points[i - 1]
    return a !== undefined && (b.k < a.k || b.takenAtMs - a.takenAtMs < leastMs) && inConflict(beliefOf(a), beliefOf(b), policy)
  })
  if (contradicts) return 'contradicted'
  return last.takenAtMs - first.takenAtMs < leastMs ? 'too-short' : null
}

const beliefOf = ({ k, uLnK }: TrendPoint) => ({ mean: Math.log(k), sd: uLnK })
