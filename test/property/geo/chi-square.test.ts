import fc from 'fast-check'
import jstat from 'jstat'
import { describe, expect, it } from 'vitest'
import { chiSquareTail } from '@/lib/geo/place/chi-square'

const { chisquare } = jstat as unknown as { chisquare: { cdf(x: number, degrees: number): number } }

describe('the chi-square tail', () => {
  it('agrees with jstat', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 400, noNaN: true }), fc.integer({ min: 1, max: 200 }), (chiSquare, degrees) => {
        expect(chiSquareTail(chiSquare, degrees)).toBeCloseTo(1 - chisquare.cdf(chiSquare, degrees), 8)
      }),
      { numRuns: 1_000 },
    )
  })

  it.each([
    [6.635, 1],
    [15.086, 5],
    [23.209, 10],
    [76.154, 50],
  ])('has 1 %% beyond %f with %i degrees of freedom (tables)', (chiSquare, degrees) => {
    expect(chiSquareTail(chiSquare, degrees)).toBeCloseTo(0.01, 5)
  })

  it('of nothing is everything', () => {
    expect([chiSquareTail(0, 3), chiSquareTail(5, 0)]).toEqual([1, 1])
  })
})
