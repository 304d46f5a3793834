import { describe, expect, it } from 'vitest'
import { bandFraction, C2_UM_K, exitance, STEFAN_BOLTZMANN } from '@/lib/condition/radiometry/planck'
import { temperatureOf } from '@/lib/condition/radiometry/temperature-of'
import { expectPrinted } from '../condition/printed'
import values from './infrared.json'

const entries = (record: Record<string, string>) => Object.entries(record).map(([at, printed]) => [Number(at), printed] as const)

describe('the share of a black body below a wavelength', () => {
  // Computed with an independent reference.
  it.each(entries(values.bandFraction.computed))('at %f µm·K is %s', (at, printed) => {
    expectPrinted(bandFraction(at), printed)
  })

  // Verified: a public emissive-power table. It stops at five digits and is up to 5.01e-5 off the series; the stated tolerance is 6e-5.
  it.each(entries(values.bandFraction.published))('at %f µm·K is within 6e-5 of the published %s', (at, printed) => {
    expect(Math.abs(bandFraction(at) - Number(printed))).toBeLessThanOrEqual(Number(values.bandFraction.tolerance))
  })

  it('is a quarter at the peak of Wien, 2898 µm·K, and not 0.2732, which belongs to 3000', () => {
    expectPrinted(bandFraction(2898), '0.2501')
    expectPrinted(bandFraction(3000), '0.2732')
  })

  it('begins at nothing, ends at all and joins its two series without a step', () => {
    expect(bandFraction(0)).toBe(0)
    expect(bandFraction(Number.NaN)).toBe(0)
    expect(bandFraction(1e9)).toBeCloseTo(1, 12)
    const joint = 143_877.6877503933
    expect(bandFraction(joint * (1 + 1e-9)) - bandFraction(joint * (1 - 1e-9))).toBeLessThan(1e-12)
  })
})

describe('exitance', () => {
  it('uses the constant of Stefan and Boltzmann (CODATA 2018, verified)', () => {
    expect(Math.abs(STEFAN_BOLTZMANN / Number(values.constants.sigma) - 1)).toBeLessThan(1e-9)
  })

  // SI of 2019, exact (verified): both radiation constants follow from these three.
  it('rests on h, c and k of the SI', () => {
    const [h, c, k] = [6.62607015e-34, 299_792_458, 1.380649e-23]
    expectPrinted(((h * c) / k), values.constants.c2MK)
    expect(Math.abs(C2_UM_K / ((1e6 * h * c) / k) - 1)).toBeLessThan(1e-14)
    expect(Math.abs(STEFAN_BOLTZMANN / ((2 * Math.PI ** 5 * k ** 4) / (15 * h ** 3 * c ** 2)) - 1)).toBeLessThan(1e-9)
  })

  it('peaks where Wien has it, 2897.771955 µm·K (CODATA 2018, verified)', () => {
    const density = (atUmK: number) => bandFraction(atUmK + 5) - bandFraction(atUmK - 5)
    const around = Array.from({ length: 61 }, (_, i) => Number(values.constants.wienUmK) - 30 + i)
    const peak = around.reduce((best, at) => (density(at) > density(best) ? at : best))
    expect(Math.abs(peak - Number(values.constants.wienUmK))).toBeLessThanOrEqual(1)
  })

  // Computed with an independent reference.
  it.each(values.bandExitanceWM2.values)('at $temperatureK K is $lw W/m² from 7.5 to 14 µm and $mw from 3 to 5', (row) => {
    const temperatureK = Number(row.temperatureK)
    const total = exitance(temperatureK, 'total')
    expectPrinted(total, row.total)
    expectPrinted(exitance(temperatureK, 'lw'), row.lw)
    expectPrinted(exitance(temperatureK, 'mw'), row.mw)
    expectPrinted(exitance(temperatureK, 'lw') / total, row.lwShare)
    expectPrinted(exitance(temperatureK, 'mw') / total, row.mwShare)
  })

  it.each(['lw', 'mw', 'total'] as const)('%s leads back to its temperature', (spectrum) => {
    for (let temperatureK = 100; temperatureK <= 2000; temperatureK += 7) {
      expect(temperatureOf(exitance(temperatureK, spectrum), spectrum) ?? Number.NaN).toBeCloseTo(temperatureK, 7)
    }
  })

  it('refuses what no body of 100 to 2000 K radiates', () => {
    for (const exitanceWM2 of [-1, 0, 1e9, Number.NaN]) expect(temperatureOf(exitanceWM2, 'lw')).toBeNull()
  })
})
