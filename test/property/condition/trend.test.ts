import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { defaultPolicy } from '@/lib/condition'
import { trendAt, trendOf, type TrendPoint } from '@/lib/condition/trend/trend'
import { NOW_MS } from './arbitrary'

const YEAR_MS = 365.25 * 86_400_000
const edges = { ...defaultPolicy.edges, basis: 'policy' as const }
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const points = fc.array(
  fc.record({ takenAtMs: fc.integer({ min: NOW_MS - 30 * YEAR_MS, max: NOW_MS }), k: number(0.05, 100), uLnK: number(0, 0.8), readingIds: fc.constant<number[]>([]) }),
  { minLength: 2, maxLength: 10 },
).map((list) => list.sort((a, b) => a.takenAtMs - b.takenAtMs))
const trendThrough = (list: TrendPoint[]) => trendOf('B', list, edges, defaultPolicy)

describe('for any readings of a side', () => {
  it('a trend is finite, its interval holds its median, and edges are passed in their order and never before the last reading', () => {
    fc.assert(fc.property(points, (list) => {
      const trend = trendThrough(list)
      expect(trend).not.toBeNull()
      if (!trend) return
      const lastMs = list.at(-1)?.takenAtMs ?? 0
      const { k, lowK, highK } = trendAt(trend, lastMs)
      expect(lowK).toBeLessThanOrEqual(k)
      expect(highK).toBeGreaterThanOrEqual(k)
      let before = lastMs
      for (const { medianAtMs, earliestAtMs } of trend.passings) {
        expect(medianAtMs === null).toBe(!trend.growing)
        if (medianAtMs === null || earliestAtMs === null) continue
        expect(Number.isFinite(medianAtMs)).toBe(true)
        expect(earliestAtMs).toBeGreaterThanOrEqual(before)
        if (medianAtMs >= lastMs) expect(earliestAtMs).toBeLessThanOrEqual(medianAtMs)
        before = earliestAtMs
      }
    }), { numRuns: 2000 })
  })

  it('the earliest passing is where the upper end of the interval meets the edge', () => {
    fc.assert(fc.property(points, (list) => {
      const trend = trendThrough(list)
      const lastMs = list.at(-1)?.takenAtMs ?? 0
      for (const { k, earliestAtMs } of trend?.passings ?? []) {
        if (!trend || earliestAtMs === null || earliestAtMs === lastMs || earliestAtMs > NOW_MS + 1000 * YEAR_MS) continue
        expect(Math.log(trendAt(trend, earliestAtMs).highK / k)).toBeCloseTo(0, 5)
      }
    }), { numRuns: 2000 })
  })
})
