import { describe, expect, it } from 'vitest'
import { trueTemperatureC, type CameraReading } from '@/lib/condition/radiometry/correct'
import { greatestDistanceM, partlyFilledC, pixelsOver } from '@/lib/condition/radiometry/spot'
import { expectPrinted } from '../condition/printed'
import values from './infrared.json'

const SPECTRA = ['total', 'lw', 'mw'] as const
const valueOf = (result: ReturnType<typeof trueTemperatureC>) => (result.ok ? result.value : Number.NaN)

// Computed with an independent reference.
describe.each(values.correction.values)('$name: $apparentC °C shown', (row) => {
  const camera: CameraReading = { apparentC: Number(row.apparentC), emissivity: Number(row.emissivitySet), reflectedC: Number(row.reflectedSetC) }
  const surface = { emissivity: Number(row.emissivity), reflectedC: Number(row.reflectedC) }

  it.each(SPECTRA)('is right by %s', (spectrum) => {
    expectPrinted(valueOf(trueTemperatureC(camera, surface, spectrum)), row[spectrum])
  })
})

describe('the correction', () => {
  const camera: CameraReading = { apparentC: 45, emissivity: 0.9, reflectedC: 20 }

  it.each(SPECTRA)('changes nothing where camera and surface agree: %s', (spectrum) => {
    expect(valueOf(trueTemperatureC(camera, { emissivity: 0.9, reflectedC: 20 }, spectrum))).toBeCloseTo(45, 8)
  })

  it('takes out air that is as warm as the surface without a change, and cold air upwards', () => {
    const surface = { emissivity: 0.9, reflectedC: 20, transmittance: 0.9 }
    const through = (atmosphereC: number) => valueOf(trueTemperatureC({ ...camera, emissivity: 1 }, { ...surface, emissivity: 1, atmosphereC }, 'lw'))
    expect(through(45)).toBeCloseTo(45, 8)
    expect(through(10)).toBeGreaterThan(48)
  })

  it('names the case where the sky alone would give more than was seen', () => {
    const result = trueTemperatureC({ apparentC: -40, emissivity: 1, reflectedC: 20 }, { emissivity: 0.2, reflectedC: 30 }, 'lw')
    expect(result).toEqual({ ok: false, error: 'reflection-exceeds-signal' })
  })

  it.each([{ emissivity: 0 }, { emissivity: 1.1 }, { emissivity: Number.NaN }, { reflectedC: -300 }, { transmittance: 0 }])('refuses %o', (wrong) => {
    expect(trueTemperatureC(camera, { emissivity: 0.9, reflectedC: 20, ...wrong }, 'lw')).toEqual({ ok: false, error: 'out-of-range' })
  })
})

describe('the spot', () => {
  // Computed with an independent reference.
  it.each(values.spotSize.values)('of $ifovMrad mrad covers $objectMm mm with $pixels pixels up to $greatestDistanceM m', (row) => {
    const [objectMm, ifovMrad, pixels] = [Number(row.objectMm), Number(row.ifovMrad), Number(row.pixels)]
    const distanceM = greatestDistanceM(objectMm, ifovMrad, pixels)
    expectPrinted(distanceM, row.greatestDistanceM)
    expect(pixelsOver(objectMm, ifovMrad, distanceM)).toBeCloseTo(pixels, 10)
  })

  it.each(values.partialFill.values)('filled to $fill with $objectC °C before $backgroundC °C shows $apparentC °C', (row) => {
    const shown = partlyFilledC(Number(row.objectC), Number(row.backgroundC), Number(row.fill), 'lw')
    expectPrinted(shown.ok ? shown.value : Number.NaN, row.apparentC)
  })

  it.each([[500_000, 20, 0.5], [90, -20, 1.2], [Number.NaN, 20, 0.5]])('refuses %f °C before %f °C filled to %f', (objectC, backgroundC, fill) => {
    expect(partlyFilledC(objectC, backgroundC, fill, 'lw')).toEqual({ ok: false, error: 'out-of-range' })
  })
})
