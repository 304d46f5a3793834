import { describe, expect, it } from 'vitest'
import { compareByRisk, consequenceOf, nextStep, riskOf, type Ranked } from '@/lib/condition/risk'

// The rule is the project's own (common practice, no source): these checks hold it to what its docstring says, in the order in which it says it.
const facts = { loadShare: 0.6, confidence: 'medium', held: false, consequence: 0 } as const
const ranked = (id: number, over: Partial<Ranked> = {}): Ranked => ({ id, class: 'urgent', risk: 100, readYear: 2024, ratio: 2, ...over })
const order = (...of: Ranked[]) => of.toSorted(compareByRisk).map(({ id }) => id)

describe('the order of the watch list', () => {
  it('asks for the class first, whatever else there is', () => {
    expect(order(ranked(1, { class: 'degraded', risk: 424 }), ranked(2, { class: 'critical', risk: 0 }), ranked(3), ranked(4, { class: 'unknown' }), ranked(5, { class: 'watch' }))).toEqual([2, 3, 1, 5, 4])
  })

  it('then for the limit against the load, one that is not known between those far below and those near', () => {
    const shares = [1.2, 1, 0.99, 0.8, undefined, 0.79, 0.5, 0.49, 0]
    const risks = shares.map((loadShare) => riskOf({ ...facts, loadShare }))
    expect(risks).toEqual([410, 410, 310, 310, 210, 110, 110, 10, 10])
  })

  it('then for confidence, a held class counting as found, and no confidence outweighs a load', () => {
    expect((['high', 'medium', 'low'] as const).map((confidence) => riskOf({ ...facts, confidence }))).toEqual([120, 110, 100])
    expect(riskOf({ ...facts, confidence: 'low', held: true })).toBe(120)
    expect(riskOf({ ...facts, loadShare: 0.8, confidence: 'low' })).toBeGreaterThan(riskOf({ ...facts, confidence: 'high', consequence: 4 }))
  })

  it('then for what a failure does', () => {
    expect(consequenceOf({ radial: true, mw: 100, crosses: true })).toBe(4)
    expect(consequenceOf({ radial: false, mw: 99.9, crosses: false })).toBe(0)
    expect(consequenceOf({ radial: null, mw: null, crosses: true })).toBe(1)
    expect(riskOf({ ...facts, consequence: 2 })).toBeGreaterThan(riskOf({ ...facts, consequence: 1 }))
    expect(riskOf({ ...facts, confidence: 'high' })).toBeGreaterThan(riskOf({ ...facts, consequence: 4 }))
  })

  it('then for age, never read first, and last for the ratio', () => {
    expect(order(ranked(1, { readYear: 2025 }), ranked(2, { readYear: 2019 }), ranked(3, { readYear: 0 }), ranked(4, { readYear: 2025, ratio: 2.4 }))).toEqual([3, 2, 4, 1])
  })

  it('never passes what the database keeps', () => {
    expect(riskOf({ loadShare: 99, confidence: 'high', held: true, consequence: 4 })).toBe(424)
  })
})

describe('what to do next', () => {
  const of = { class: 'critical', measuredClass: 'critical', held: false, waitsForCall: true, decidedOnLoad: false } as const
  it('is the call, then the decision on load, then the repair', () => {
    expect(nextStep(of)).toBe('call-control-room')
    expect(nextStep({ ...of, waitsForCall: false })).toBe('decide-load-or-outage')
    expect(nextStep({ ...of, waitsForCall: false, decidedOnLoad: true })).toBe('repair')
    expect(nextStep({ ...of, class: 'urgent', waitsForCall: false })).toBe('repair')
    expect(nextStep({ ...of, class: 'degraded', waitsForCall: false })).toBe('repair-in-outage')
  })

  it('is another reading where the evidence contradicts a held class, and nothing for what is better', () => {
    expect(nextStep({ ...of, class: 'urgent', measuredClass: 'sound', held: true, waitsForCall: false })).toBe('second-reading-or-engineer')
    expect(nextStep({ ...of, class: 'watch' })).toBeNull()
    expect(nextStep({ ...of, class: 'unknown' })).toBeNull()
  })
})
