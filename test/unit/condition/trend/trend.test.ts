import { describe, expect, it } from 'vitest'
import { defaultPolicy } from '@/lib/condition'
import { nextReadingDueMs, type LastReading } from '@/lib/condition/trend/next-reading'
import { trendAt, trendOf, type Trend, type TrendPoint } from '@/lib/condition/trend/trend'
import { DAY_MS, NOW_MS, YEAR_MS } from '../evidence'

const edges = { ...defaultPolicy.edges, basis: 'policy' as const }
const pointsOf = (readings: [years: number, k: number, uLnK?: number][]): TrendPoint[] =>
  readings.map(([years, k, uLnK = 0.04]) => ({ takenAtMs: NOW_MS + years * YEAR_MS, k, uLnK, readingIds: [] }))
const fitted = (points: TrendPoint[]): Trend => {
  const trend = trendOf('A', points, edges, defaultPolicy)
  if (!trend) throw new Error('no trend')
  return trend
}
const GROWING = pointsOf([[0, 0.62], [2, 0.7], [4, 0.83], [6, 1.05]])

describe('a trend', () => {
  it('needs two readings', () => {
    expect(trendOf('A', [], edges, defaultPolicy)).toBeNull()
    expect(trendOf('A', pointsOf([[0, 0.8]]), edges, defaultPolicy)).toBeNull()
  })

  it('of two readings leans on the usual growth', () => {
    const trend = fitted(pointsOf([[0, 0.8, 0.06], [3, 1.1, 0.06]]))
    expect(trend).toMatchObject({ method: 'with-usual-growth', growing: true, wide: false })
    expect(trend.growthPerYear).toBeLessThan(Math.log(1.1 / 0.8) / 3)
  })

  it('of three says that its interval is wide, of four no more', () => {
    expect(fitted(GROWING.slice(0, 3)).wide).toBe(true)
    expect(fitted(GROWING)).toMatchObject({ method: 'readings', wide: false })
  })

  it('of readings within a month leans on the usual growth however many they are', () => {
    const sameMonth = GROWING.map((point, i) => ({ ...point, takenAtMs: NOW_MS + i * 7 * DAY_MS }))
    expect(fitted(sameMonth)).toMatchObject({ method: 'with-usual-growth' })
  })

  it('is accelerating where each step is steeper than the one before', () => {
    expect(fitted(GROWING).accelerating).toBe(true)
    expect(fitted(pointsOf([[0, 0.62], [2, 0.8], [4, 0.83], [6, 1.05]])).accelerating).toBe(false)
  })

  it('without growth passes nothing, ever', () => {
    const trend = fitted(pointsOf([[0, 0.9], [2, 0.85], [4, 0.8], [6, 0.75]]))
    expect(trend.growing).toBe(false)
    for (const { medianAtMs, earliestAtMs } of trend.passings) expect([medianAtMs, earliestAtMs]).toEqual([null, null])
  })

  it('passes an edge at the earliest where the upper end of its interval meets it', () => {
    const trend = fitted(GROWING)
    const degraded = trend.passings.find(({ class: name }) => name === 'degraded')
    expect(trendAt(trend, degraded?.medianAtMs ?? 0).k).toBeCloseTo(1.3, 6)
    expect(trendAt(trend, degraded?.earliestAtMs ?? 0).highK).toBeCloseTo(1.3, 6)
    expect(degraded?.earliestAtMs).toBeLessThan(degraded?.medianAtMs ?? 0)
  })

  it('has passed already what its upper end lies over at the last reading', () => {
    expect(fitted(GROWING).passings[0]?.earliestAtMs).toBe(NOW_MS + 6 * YEAR_MS)
  })

  it('widens where readings scatter more than their errors, and never narrows under them', () => {
    const calm = fitted(pointsOf([[0, 0.7], [2, 0.75], [4, 0.8], [6, 0.85]]))
    const restless = fitted(pointsOf([[0, 0.6], [2, 0.9], [4, 0.7], [6, 1]]))
    expect(restless.uGrowthPerYear).toBeGreaterThan(2 * calm.uGrowthPerYear)
    expect(calm.uGrowthPerYear).toBeCloseTo(0.04 / Math.sqrt(20), 10)
  })
})

describe('the next reading', () => {
  const last = (fields: Partial<LastReading>): LastReading =>
    ({ class: 'sound', takenAtMs: NOW_MS, k: 0.6, uLnK: 0.05, mostYears: defaultPolicy.resurveyYears.sound, ...fields })
  const dueYears = (reading: LastReading, trend: Trend | null = null) =>
    (nextReadingDueMs(reading, trend, edges, defaultPolicy) - reading.takenAtMs) / YEAR_MS

  it('of a single reading comes sooner the nearer the next edge is', () => {
    expect(dueYears(last({ k: 0.8 }))).toBeLessThan(dueYears(last({ k: 0.7 })))
    expect(dueYears(last({ k: 0.4 }))).toBeCloseTo(3.99, 1)
  })

  it('stays within what the policy has for the class', () => {
    expect(dueYears(last({ k: 0.98 }))).toBeCloseTo(1, 6)
    expect(dueYears(last({ k: 0.2 }))).toBeCloseTo(6, 6)
    expect(dueYears(last({ class: 'critical', k: 4, mostYears: 0.5 }))).toBeCloseTo(0.02, 6)
  })

  it('of a trend is due after half the time to the earliest passing', () => {
    const trend = fitted(pointsOf([[-6, 0.5], [-4, 0.54], [-2, 0.59], [0, 0.64]]))
    const earliest = trend.passings[0]?.earliestAtMs ?? 0
    expect(dueYears(last({ k: 0.64 }), trend)).toBeCloseTo((0.5 * (earliest - NOW_MS)) / YEAR_MS, 6)
  })

  it('without growth is due after the longest interval', () => {
    expect(dueYears(last({}), fitted(pointsOf([[-6, 0.7], [-4, 0.68], [-2, 0.65], [0, 0.6]])))).toBeCloseTo(6, 6)
  })
})
