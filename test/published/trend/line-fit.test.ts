import { describe, it } from 'vitest'
import { knownUncertaintyLine, knownUncertaintySlope, leastSquaresLine, lineAt, reaches, type FitPoint } from '@/lib/condition/trend/line-fit'
import { quantileOf } from '@/lib/condition/trend/quantile'
import { normalUpperTail } from '@/lib/condition/normal'
import { expectPrinted } from '../condition/printed'
import printed from './trend.json'

/** Status of every figure of this file's trend.json: computed with an independent reference. */
const points: FitPoint[] = printed.t_years.map((years, i) => ({ x: Number(years), y: Math.log(Number(printed.k[i])) }))
const fit = leastSquaresLine(points)
const interval = { fit, quantile: quantileOf(0.95, points.length - 2) }

describe('four readings without known errors', () => {
  it('give the printed line', () => {
    expectPrinted(fit.level - fit.slope * fit.centre, printed.ln_fit.intercept)
    expectPrinted(fit.slope, printed.ln_fit.slope_per_year)
    expectPrinted(fit.uSlope, printed.ln_fit.se_slope)
    expectPrinted(fit.residualSd ?? Number.NaN, printed.ln_fit.resid_sd)
    expectPrinted(fit.r2 ?? Number.NaN, printed.ln_fit.r2)
  })

  it('give the printed interval of a reading after eight years, nine in ten', () => {
    const { median, low, high } = lineAt(interval, 8)
    const [printedMedian = '', printedLow = '', printedHigh = ''] = printed.pred_t8_90
    expectPrinted(Math.exp(median), printedMedian)
    expectPrinted(Math.exp(low), printedLow)
    expectPrinted(Math.exp(high), printedHigh)
  })

  it.each(Object.entries(printed.time_to))('reach %s when printed', (edge, times) => {
    const found = reaches(interval, Math.log(Number(edge)), 6)
    expectPrinted(found?.median ?? Number.NaN, times.median)
    expectPrinted(found?.earliest ?? Number.NaN, times.earliest_by_upper_90PI)
  })

  it('double in the printed time', () => {
    expectPrinted(Math.LN2 / fit.slope, printed.doubling_time_years)
  })
})

describe('two readings with known errors', () => {
  const { two_points_known_u: two, two_points_with_prior: prior } = printed
  const pair = two.t.map((years, i) => ({ x: Number(years), y: Math.log(Number(two.k[i])), u: Number(two.u_lnk[i]) }))

  it('show the printed growth', () => {
    const { slope, uSlope } = knownUncertaintySlope(pair)
    expectPrinted(slope, two.slope)
    expectPrinted(uSlope, two.u_slope)
    expectPrinted(slope / uSlope, two.z)
    expectPrinted(normalUpperTail(-slope / uSlope), two.P_growing)
  })

  it('are weighed against what was known before', () => {
    const line = knownUncertaintyLine(pair, { slope: Number(prior.prior_mean), uSlope: Number(prior.prior_sd) })
    expectPrinted(line.slope, prior.post_mean)
    expectPrinted(line.uSlope, prior.post_sd)
  })
})

describe('the quantiles', () => {
  // t tables as every handbook of statistics prints them: verified.
  it.each([[1, '6.314'], [2, '2.920'], [3, '2.353'], [10, '1.812'], [30, '1.697'], [Infinity, '1.645']])(
    'of Student’s t at 95 %% with %f degrees of freedom is %s', (degrees, value) => {
      expectPrinted(quantileOf(0.95, degrees), value)
    })
})
