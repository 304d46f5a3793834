import fc from 'fast-check'
import { HEAT_RANGES, type HeatQuantity } from '@/lib/condition/heat/ranges'
import type { Cylinder, HeatedCylinder, Weather } from '@/lib/condition/heat/weather'

export const inRange = (quantity: HeatQuantity): fc.Arbitrary<number> => {
  const [min, max] = HEAT_RANGES[quantity]
  return fc.double({ min, max, noNaN: true })
}

/** Evenly over the powers of ten, so that small resistances and ratios come as often as large ones. */
export const evenly = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min: Math.log(min), max: Math.log(max), noNaN: true }).map((ln) => Math.min(max, Math.max(min, Math.exp(ln))))

export const weather: fc.Arbitrary<Weather> = fc.record({
  ambientC: inRange('ambientC'), windMS: inRange('windMS'), windAngleDeg: inRange('windAngleDeg'), sunWPerM2: inRange('sunWPerM2'),
  elevationM: inRange('elevationM'),
})

const surface = { emissivity: inRange('emissivity'), absorptivity: inRange('absorptivity') }

export const conductor: fc.Arbitrary<HeatedCylinder> = fc.record({
  ...surface, diameterM: fc.double({ min: 0.004, max: 0.06, noNaN: true }),
  resistance: fc.record({ at20: evenly(1.01e-5, 4.9e-3), coefficient: fc.double({ min: 0, max: 0.0099, noNaN: true }) })
    .map(({ at20, coefficient }) => ({ lowC: 20, lowOhmPerM: at20, highC: 75, highOhmPerM: at20 * (1 + coefficient * 55) })),
})

/** A barrel at least as thick as the conductor, within what a diameter may be. */
export const withBarrel: fc.Arbitrary<{ conductor: HeatedCylinder; barrel: Cylinder }> = fc
  .record({ conductor, emissivity: surface.emissivity, absorptivity: surface.absorptivity, wider: fc.double({ min: 1, max: 2.5, noNaN: true }) })
  .map(({ conductor: bare, emissivity, absorptivity, wider }) => ({
    conductor: bare, barrel: { emissivity, absorptivity, diameterM: Math.min(0.08, bare.diameterM * wider) },
  }))

export const currentA = inRange('currentA')
export const k = evenly(0.05, 100)

/** A usual line: aluminium, weathered, in usual weather and load, so that answers mostly exist. */
export const usualConductor: fc.Arbitrary<HeatedCylinder> = fc
  .record({ diameterM: fc.double({ min: 0.009, max: 0.045, noNaN: true }), emissivity: fc.double({ min: 0.3, max: 0.95, noNaN: true }) })
  .map(({ diameterM, emissivity }) => {
    const at20 = 2.826e-8 / (0.785 * 0.75 * diameterM * diameterM)
    return {
      diameterM, emissivity, absorptivity: emissivity, resistance: { lowC: 20, lowOhmPerM: at20, highC: 75, highOhmPerM: at20 * (1 + 0.00403 * 55) },
    }
  })

export const usualWeather: fc.Arbitrary<Weather> = fc.record({
  ambientC: fc.double({ min: -20, max: 45, noNaN: true }), windMS: fc.double({ min: 0, max: 10, noNaN: true }),
  windAngleDeg: fc.constant(90), sunWPerM2: fc.double({ min: 0, max: 1100, noNaN: true }), elevationM: fc.double({ min: 0, max: 3000, noNaN: true }),
})

export const barrelOf = (bare: HeatedCylinder, factor = 1.7): Cylinder =>
  ({ diameterM: bare.diameterM * factor, emissivity: bare.emissivity, absorptivity: bare.absorptivity })
