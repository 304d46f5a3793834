import { describe, expect, it } from 'vitest'
import { chanceOfAsMany, compareBatches } from '@/lib/condition/batch-comparison'

/** Fisher's exact test, one-sided, as R's documentation of fisher.test prints its examples (from memory; each is an exact fraction and was worked out so). */
describe('the chance of as many failing by accident', () => {
  it.each([
    ['tea tasting, 3 of 4', { measured: 4, failing: 3 }, { measured: 8, failing: 4 }, 0.2429, 17 / 70],
    ['tea tasting, 4 of 4', { measured: 4, failing: 4 }, { measured: 8, failing: 4 }, 0.01429, 1 / 70],
    ['convictions of twins, 10 of 13', { measured: 13, failing: 10 }, { measured: 30, failing: 12 }, 0.0004652, 619 / 1_330_665],
  ])('%s', (_name, batch, all, printed, exact) => {
    const chance = chanceOfAsMany(batch, all)
    expect(Number(chance.toPrecision(4))).toBe(printed)
    expect(chance / exact).toBeCloseTo(1, 9)
  })

  it('agrees with whole-number arithmetic where the numbers are those of a network', () => {
    const choose = (n: bigint, k: bigint): bigint => {
      let result = 1n
      for (let i = 1n; i <= k; i++) result = (result * (n - k + i)) / i
      return result
    }
    let ways = 0n
    for (let k = 14n; k <= 40n; k++) ways += choose(120n, k) * choose(1880n, 40n - k)
    const exact = Number((ways * 10n ** 30n) / choose(2000n, 40n)) / 1e30
    expect(chanceOfAsMany({ measured: 40, failing: 14 }, { measured: 2000, failing: 120 }) / exact).toBeCloseTo(1, 6)
  })
})

describe('batches', () => {
  it('stand out where they fail beyond accident, and not by one or two', () => {
    const [worst, ...rest] = compareBatches([
      { batch: 'fine', measured: 50, failing: 2 }, { batch: 'bad', measured: 40, failing: 14 }, { batch: 'two', measured: 2, failing: 2 },
    ], { measured: 2000, failing: 60 })
    expect(worst).toMatchObject({ batch: 'bad', standsOut: true })
    expect(worst?.othersShare).toBeCloseTo(46 / 1960, 12)
    expect(rest.map(({ batch, standsOut }) => [batch, standsOut])).toEqual([['two', false], ['fine', false]])
  })

  it('say nothing where there is no other splice or nothing fails', () => {
    expect(compareBatches([{ batch: 'only', measured: 5, failing: 5 }], { measured: 5, failing: 5 })).toMatchObject([{ othersShare: null, byAccident: 1, standsOut: false }])
    expect(compareBatches([{ batch: 'sound', measured: 5, failing: 0 }], { measured: 9, failing: 0 })).toMatchObject([{ byAccident: 1, standsOut: false }])
  })
})
