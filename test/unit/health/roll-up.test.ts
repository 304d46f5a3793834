import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { CONDITION_CLASSES } from '@/lib/condition'
import { classRank, coverageOf, rollUp, worstFirst, type SpliceForHealth } from '@/lib/health/roll-up'

const splice = (spliceId: number, c: SpliceForHealth['class'], ratio: number | null = null): SpliceForHealth => ({ spliceId, class: c, ratio })

describe('rolling splices up to a circuit', () => {
  it('counts each class and names the worst', () => {
    const health = rollUp([splice(1, 'sound', 0.6), splice(2, 'urgent', 2.1), splice(3, 'urgent', 2.3), splice(4, 'unknown')])
    expect(health.counts).toEqual({ sound: 1, watch: 0, degraded: 0, urgent: 2, critical: 0, unknown: 1 })
    expect(health).toMatchObject({ spliceCount: 4, worst: { spliceId: 3 } })
  })

  it('has no worst splice where nothing was measured', () => {
    expect(rollUp([splice(1, 'unknown'), splice(2, 'unknown')])).toMatchObject({ spliceCount: 2, worst: null })
    expect(rollUp([])).toMatchObject({ spliceCount: 0, worst: null })
  })

  it('never takes unknown for worse than a measured class', () => {
    expect(rollUp([splice(1, 'unknown'), splice(2, 'sound', 0.5)]).worst?.spliceId).toBe(2)
    expect(classRank('unknown')).toBeLessThan(classRank('sound'))
  })

  it('tells equal ratios apart by the older splice', () => {
    expect(rollUp([splice(9, 'watch', 1.2), splice(4, 'watch', 1.2)]).worst?.spliceId).toBe(4)
  })

  const anySplices = fc.uniqueArray(fc.record({
    spliceId: fc.integer({ min: 1, max: 1e6 }), class: fc.constantFrom(...CONDITION_CLASSES),
    ratio: fc.option(fc.double({ min: 0.1, max: 10, noNaN: true }), { nil: null }),
  }), { selector: (s) => s.spliceId, maxLength: 60 })

  it('adds up, and its worst is first of all measured, in any order', () => {
    fc.assert(fc.property(anySplices, (splices) => {
      const health = rollUp(splices)
      expect(Object.values(health.counts).reduce((a, b) => a + b, 0)).toBe(splices.length)
      expect(health.worst).toEqual(splices.filter((s) => s.class !== 'unknown').sort(worstFirst)[0] ?? null)
      expect(rollUp([...splices].reverse())).toEqual(health)
    }))
  })
})

describe('coverage by span and phase', () => {
  it('counts named phases of spans, three to a span where nothing else is known', () => {
    expect(coverageOf(4, [{ phases: ['A', 'B', 'C'], phaseNotConfirmed: false }, { phases: ['A', 'A'], phaseNotConfirmed: false }]))
      .toEqual({ spanCount: 4, spanPhaseCount: 12, coveredSpanPhases: 4, share: 4 / 12 })
  })

  it('counts an inspection of an unconfirmed phase as one phase at most, and none beside a named one', () => {
    expect(coverageOf(2, [{ phases: [], phaseNotConfirmed: true }, { phases: ['B'], phaseNotConfirmed: true }]).coveredSpanPhases).toBe(2)
  })

  it('has no share without spans', () => {
    expect(coverageOf(0, []).share).toBeNull()
  })
})
