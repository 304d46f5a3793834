import { describe, expect, it } from 'vitest'
import { bandFraction, exitance, STEFAN_BOLTZMANN, temperatureOf } from '@/lib/condition/radiometry/planck'
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
