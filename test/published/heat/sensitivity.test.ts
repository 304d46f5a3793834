import { describe, expect, it } from 'vitest'
import { steadyTemperature } from '@/lib/condition/heat/balance'
import { exchangeOf, netLossWPerM } from '@/lib/condition/heat/cooling'
import { jointTemperature, kFromTemperature } from '@/lib/condition/heat/joint'
import type { HeatedCylinder, Weather } from '@/lib/condition/heat/weather'
import { expectPrinted } from '../condition/printed'
import infrared from './infrared-heat.json'
import misc from './misc.json'

/** Drake, 47.6 mm barrel, surfaces 0.7, night, air 20 °C; full load is 906.7756 A. Status of every figure: computed. */
const SURFACE = { emissivity: 0.7, absorptivity: 0.7 }
const DRAKE: HeatedCylinder = {
  ...SURFACE, diameterM: 0.02814, resistance: { lowC: 25, lowOhmPerM: 7.283e-5, highC: 75, highOhmPerM: 8.688e-5 },
}
const BARREL = { ...SURFACE, diameterM: 0.0476 }
const FULL_LOAD_A = 906.7756
const weather = (windMS: number, sunWPerM2 = 0): Weather => ({ ambientC: 20, windMS, windAngleDeg: 90, sunWPerM2, elevationM: 0 })

function temperatureC(k: number | 'conductor', currentA: number, at: Weather): number {
  const found = k === 'conductor' ? steadyTemperature(DRAKE, currentA, at) : jointTemperature(DRAKE, BARREL, k, currentA, at)
  if (!found.ok || found.value.kind !== 'steady') throw new Error('no balance')
  return found.value.temperatureC
}

describe('what a splice shows over its conductor', () => {
  it.each(misc.ir_sensitivity.rows)('in $V m/s at $load of full load', (row) => {
    const at = weather(Number(row.V))
    const currentA = Number(row.load) * FULL_LOAD_A
    const conductorC = temperatureC('conductor', currentA, at)
    expectPrinted(conductorC - 20, row.rise_cond)
    expectPrinted(temperatureC(0.5, currentA, at) - conductorC, row['dT_k0.5'])
    expectPrinted(temperatureC(1, currentA, at) - conductorC, row.dT_k1)
    expectPrinted(temperatureC(1.3, currentA, at) - conductorC, row['dT_k1.3'])
    expectPrinted(temperatureC(2, currentA, at) - conductorC, row.dT_k2)
    expectPrinted(temperatureC(3, currentA, at) - conductorC, row.dT_k3)
    // The printed figure is what a kelvin adds to ln of the heat lost; k itself also loses the change of the resistance, 0.4 % a kelvin.
    const spliceC = temperatureC(2, currentA, at)
    const exchange = exchangeOf(BARREL, at)
    const slope = Math.log(netLossWPerM(exchange, spliceC + 1e-4) / netLossWPerM(exchange, spliceC - 1e-4)) / 2e-4
    expectPrinted(slope, row.u_lnk_for_1K)
  })
})

describe('what the sun alone adds', () => {
  it.each(Object.entries(misc.solar_rise.values))('at %s m/s', (windMS, printed) => {
    expectPrinted(temperatureC('conductor', 0, weather(Number(windMS), 1000)) - 20, printed.conductor_solar_rise_K)
    expectPrinted(temperatureC(1, 0, weather(Number(windMS), 1000)) - 20, printed.joint_solar_rise_K)
  })
})

describe('how a rise grows from 40 % load to full load', () => {
  const { physical_model: model } = infrared.load_correction
  const exponent = (low: number, high: number) => Math.log(high / low) / Math.log(1 / 0.4)

  it.each(model.rows)('in 1 m/s with k $k', (row) => {
    const at = weather(1)
    const [low, high] = [0.4 * FULL_LOAD_A, FULL_LOAD_A].map((currentA) => {
      const spliceC = temperatureC(Number(row.k), currentA, at)
      return { overConductorK: spliceC - temperatureC('conductor', currentA, at), overAirK: spliceC - 20 }
    })
    if (!low || !high) throw new Error('two loads')
    expectPrinted(low.overConductorK, row.dT_over_cond_40pct)
    expectPrinted(high.overConductorK, row.dT_over_cond_100pct)
    expectPrinted(exponent(low.overConductorK, high.overConductorK), row.n_over_cond)
    expectPrinted(low.overAirK, row.rise_amb_40pct)
    expectPrinted(high.overAirK, row.rise_amb_100pct)
    expectPrinted(exponent(low.overAirK, high.overAirK), row.n_over_amb)
  })

  it.each(model.still_air_rows)('in still air with k $k', (row) => {
    const low = temperatureC(Number(row.k), 0.4 * FULL_LOAD_A, weather(0)) - 20
    const high = temperatureC(Number(row.k), FULL_LOAD_A, weather(0)) - 20
    expectPrinted(low, row.rise_40pct)
    expectPrinted(high, row.rise_100pct)
    expectPrinted(exponent(low, high), row.n_over_amb)
  })
})

// The printed factors name no splice; k 3 at 500 A, night, air 20 °C, surfaces 0.7 meets all eight (found by search).
describe('how much less a splice rises in more wind', () => {
  const riseK = (windMS: number) => temperatureC(3, 500, weather(windMS)) - 20
  it.each(Object.entries(infrared.wind_table.physical_model_738_joint))('at %s m/s by %s of 1 m/s', (windMS, printed) => {
    expectPrinted(riseK(1) / riseK(Number(windMS)), printed)
  })
})

describe('a round trip', () => {
  it('gives k back from every temperature of the table', () => {
    for (const k of [0.5, 1, 1.3, 2, 3]) {
      const found = kFromTemperature(DRAKE, BARREL, temperatureC(k, 500, weather(1)), 500, weather(1))
      expect(found.ok && found.value).toBeCloseTo(k, 9)
    }
  })
})
