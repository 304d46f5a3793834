import jstat from 'jstat'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { leastSquaresLine, type FitPoint } from '@/lib/condition/trend/line-fit'
import nist from './nist-strd.json'

/** Certified values of the NIST Statistical Reference Datasets: verified. */
const { Norris, Pontius, Longley, Misra1a } = nist.sets
const relativeError = (found: number | undefined, certified: number): number => Math.abs((found ?? Number.NaN) / certified - 1)

const solve = (design: number[][], values: number[]): number[] => jstat.lstsq(design, values.map((value) => [value])).flat()
const ys = (rows: number[][]): number[] => rows.map(([y = Number.NaN]) => y)

describe('Norris, a line through 36 readings', () => {
  const fit = leastSquaresLine(Norris.data.map(([y = Number.NaN, x = Number.NaN]) => ({ x, y })))
  it('agrees to 1e-9 with every certified value', () => {
    const [b0 = 0, b1 = 0] = Norris.b
    const [se0 = 0, se1 = 0] = Norris.se
    expect(relativeError(fit.level - fit.slope * fit.centre, b0)).toBeLessThan(1e-9)
    expect(relativeError(fit.slope, b1)).toBeLessThan(1e-9)
    expect(relativeError(Math.hypot(fit.uLevel, fit.uSlope * fit.centre), se0)).toBeLessThan(1e-9)
    expect(relativeError(fit.uSlope, se1)).toBeLessThan(1e-9)
    expect(relativeError(fit.residualSd, Norris.rsd)).toBeLessThan(1e-9)
    expect(relativeError(fit.r2, Norris.r2)).toBeLessThan(1e-9)
  })
})

describe('jstat, which lends the quantiles and is the peer below', () => {
  it('solves Pontius to 1e-9', () => {
    const found = solve(Pontius.data.map(([, x = Number.NaN]) => [1, x, x * x]), ys(Pontius.data))
    for (const [i, certified] of Pontius.b.entries()) expect(relativeError(found[i], certified)).toBeLessThan(1e-9)
  })

  it('solves Longley to 1e-7', () => {
    const found = solve(Longley.data.map(([, ...xs]) => [1, ...xs]), ys(Longley.data))
    for (const [i, certified] of Longley.b.entries()) expect(relativeError(found[i], certified)).toBeLessThan(1e-7)
  })

  const modelled = (b1: number, b2: number) => Misra1a.x.map((x, i) => {
    const rest = Math.exp(-b2 * x)
    return { residual: (Misra1a.y[i] ?? Number.NaN) - b1 * (1 - rest), gradient: [1 - rest, b1 * x * rest] }
  })

  it.each([Misra1a.start1, Misra1a.start2])('leads Gauss and Newton to Misra1a within 1e-5 from %f and %f', (...start) => {
    let [b1 = 0, b2 = 0] = start
    const squares = (at1: number, at2: number) => modelled(at1, at2).reduce((sum, { residual }) => sum + residual * residual, 0)
    for (let step = 0; step < 200; step++) {
      const now = modelled(b1, b2)
      const [d1 = 0, d2 = 0] = solve(now.map(({ gradient }) => gradient), now.map(({ residual }) => residual))
      let share = 1
      while (squares(b1 + share * d1, b2 + share * d2) > squares(b1, b2) && share > 1e-6) share /= 2
      b1 += share * d1
      b2 += share * d2
    }
    expect(relativeError(b1, Misra1a.b[0] ?? 0)).toBeLessThan(1e-5)
    expect(relativeError(b2, Misra1a.b[1] ?? 0)).toBeLessThan(1e-5)
    expect(relativeError(squares(b1, b2), Misra1a.rss)).toBeLessThan(1e-5)
  })

  it('agrees with the weighted line for any readings', () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
    const point = fc.record({ x: number(0, 30), y: number(-2, 2), u: number(0.02, 0.5) })
    fc.assert(fc.property(fc.array(point, { minLength: 3, maxLength: 12 }), (points: Required<FitPoint>[]) => {
      fc.pre(Math.max(...points.map(({ x }) => x)) - Math.min(...points.map(({ x }) => x)) > 0.1)
      const fit = leastSquaresLine(points)
      const [b0 = 0, b1 = 0] = solve(points.map(({ x, u }) => [1 / u, x / u]), points.map(({ y, u }) => y / u))
      expect(fit.slope).toBeCloseTo(b1, 6)
      expect(fit.level - fit.slope * fit.centre).toBeCloseTo(b0, 5)
    }))
  })
})
