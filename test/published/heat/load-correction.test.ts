import { describe, expect, it } from 'vitest'
import { riseAtCurrentK, riseAtRating, windFactor } from '@/lib/condition/load-correction'
import { expectPrinted } from '../condition/printed'
import infrared from './infrared-heat.json'

const { load_correction: { power_law: rows, physical_model: model }, wind_table: wind } = infrared

/** Range of the power 1.6 to 2.0: verified (public tip of a thermography training body, 16 Oct 2023); the figures: computed. */
describe('a rise at full load by a power of the current', () => {
  it.each(rows)('$dT K at $I_frac of full load, power $n', ({ dT, I_frac, n, dT_full }) => {
    expectPrinted(riseAtCurrentK(Number(dT), Number(I_frac), 1, Number(n)), dT_full)
  })

  it('takes the square, and shows 1.6 to 2.2 beside it', () => {
    const found = riseAtRating(5, 0.4)
    expectPrinted(found?.lowK ?? NaN, rows[0]?.dT_full ?? '')
    expectPrinted(found?.takenK ?? NaN, rows[2]?.dT_full ?? '')
    expect(found?.highK).toBeGreaterThan(found?.takenK ?? NaN)
  })

  // The balance by IEEE 738 at 1 m/s rises by more than the square: the rule of thumb lies under it, and its band holds it to a tenth.
  it.each(model.rows)('lies under the heat balance in wind of 1 m/s, ratio $k', ({ rise_amb_40pct, rise_amb_100pct }) => {
    const found = riseAtRating(Number(rise_amb_40pct), 0.4)
    expect(found?.takenK).toBeLessThan(Number(rise_amb_100pct))
    expect((found?.highK ?? NaN) / Number(rise_amb_100pct)).toBeGreaterThan(0.9)
    expect(found?.lowK).toBeLessThan(Number(rise_amb_100pct))
  })

  it.each([[5, 0.24], [5, 1], [5, 1.2], [0, 0.5], [-3, 0.5], [5, 0], [5, NaN], [NaN, 0.5]])('is not carried: %f K at %f of the rating', (riseK, share) => {
    expect(riseAtRating(riseK, share)).toBeNull()
  })
})

/** From memory, no public copy found. */
describe('the table of factors for wind', () => {
  it.each(Object.entries(wind.factor))('at %s m/s is %s', (windMS, printed) => expectPrinted(windFactor(Number(windMS)) ?? NaN, printed))

  it('runs straight between its rows, near the power that fits them', () => {
    expect(windFactor(1.5)).toBeCloseTo(1.18, 10)
    for (let windMS = 1; windMS <= 8; windMS += 0.25) {
      expect((windFactor(windMS) ?? NaN) / windMS ** Number(wind.fit_exponent)).toBeCloseTo(1, 1)
    }
  })

  it.each([0, 0.99, 8.01, -1, NaN, Infinity])('says nothing of %f m/s', (windMS) => expect(windFactor(windMS)).toBeNull())
})
