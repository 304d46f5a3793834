import jstat from 'jstat'
import { describe, expect, it } from 'vitest'
import { normalUpperTail } from '@/lib/condition/normal'
import { expectPrinted } from './printed'

describe('the normal distribution', () => {
  it('agrees with an independent library from −6 to 6', () => {
    for (let z = -6; z <= 6; z += 0.05) expect(Math.abs(normalUpperTail(-z) - jstat.normal.cdf(z, 0, 1))).toBeLessThan(1e-9)
  })

  // Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.1 and the percentage points below it: verified.
  const POINTS = [[1, '0.84134474606'], [1.96, '0.97500210485'], [2.5758293035489, '0.995'], [3, '0.99865010197']] as const
  it.each(POINTS)('P(Z ≤ %f) is %s', (z, printed) => {
    expectPrinted(normalUpperTail(-z), printed)
  })

  // Q(z) from the continued fraction of the same source, computed with 50 digits: computed.
  it.each([[10, '7.619853e-24'], [20, '2.753624e-89'], [30, '4.906714e-198']])('P(Z > %i) is %s', (z, printed) => {
    expectPrinted(normalUpperTail(z), printed)
  })

  it('ends at 0 and 1', () => {
    expect(normalUpperTail(Infinity)).toBe(0)
    expect(normalUpperTail(-Infinity)).toBe(1)
    expect(normalUpperTail(Number.NaN)).toBeNaN()
  })
})
