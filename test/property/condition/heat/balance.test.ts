import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { currentAtA, steadyTemperature, type Steady } from '@/lib/condition/heat/balance'
import { exchangeOf, netLossWPerM } from '@/lib/condition/heat/cooling'
import { axialProfile } from '@/lib/condition/heat/fins'
import { jointBody, jointTemperature, kFromTemperature } from '@/lib/condition/heat/joint'
import { ohmPerMAt } from '@/lib/condition/heat/line-resistance'
import { firstRefusal, HEAT_RANGES, type HeatQuantity } from '@/lib/condition/heat/ranges'
import { effectiveWindMS } from '@/lib/condition/heat/reference-wind'
import type { Weather } from '@/lib/condition/heat/weather'
import type { Result } from '@/lib/result/result'
import { barrelOf, conductor, currentA, evenly, inRange, k, usualConductor, usualWeather, weather, withBarrel } from './arbitrary'

const finite = (value: unknown): boolean => {
  if (typeof value === 'number') return Number.isFinite(value)
  return typeof value !== 'object' || value === null || Object.values(value).every(finite)
}
/** Runaway is hotter than anything. */
const degrees = (found: Result<Steady, unknown>): number => {
  if (!found.ok) throw new Error('refused')
  return found.value.kind === 'steady' ? found.value.temperatureC : Infinity
}

describe('for any values in range', () => {
  it('every answer is a number or says why there is none, 100,000 times', () => {
    fc.assert(fc.property(withBarrel, weather, currentA, k, inRange('surfaceC'), ({ conductor: bare, barrel }, at, amps, ratio, surfaceC) => {
      const found = jointTemperature(bare, barrel, ratio, amps, at)
      if (!found.ok || !finite(found)) throw new Error(JSON.stringify(found))
      if (found.value.kind === 'steady' && found.value.temperatureC < at.ambientC) throw new Error('colder than the air')
      const limit = currentAtA(jointBody(bare, barrel, ratio), surfaceC, at, ratio)
      if (!limit.ok || !finite(limit)) throw new Error(JSON.stringify(limit))
      const wind = effectiveWindMS(bare, surfaceC, amps, at)
      if (!finite(wind) || (wind.ok && wind.value < 0)) throw new Error(JSON.stringify(wind))
      const back = kFromTemperature(bare, barrel, surfaceC, amps, at)
      if (!finite(back)) throw new Error(JSON.stringify(back))
    }), { numRuns: 100_000 })
  }, 120_000)

  it('and so with heat along the line', () => {
    const along = fc.record({
      barrelLengthM: inRange('barrelLengthM'), barrelWMPerK: inRange('alongLineWMPerK'), conductorWMPerK: inRange('alongLineWMPerK'),
    })
    fc.assert(fc.property(withBarrel, weather, currentA, k, along, ({ conductor: bare, barrel }, at, amps, ratio, line) => {
      const found = axialProfile(bare, barrel, ratio, line, amps, at)
      expect(finite(found)).toBe(true)
      if (!found.ok) return
      const { centreC, mouthC, spliceAloneC, conductorFarC } = found.value
      const [low, high] = [Math.min(spliceAloneC, conductorFarC) - 1e-9, Math.max(spliceAloneC, conductorFarC) + 1e-9]
      for (const between of [centreC, mouthC]) expect(between >= low && between <= high).toBe(true)
    }), { numRuns: 5000 })
  })
})

describe('outside the ranges', () => {
  const outside = (quantity: HeatQuantity) => {
    const [least, greatest] = HEAT_RANGES[quantity]
    return fc.oneof(
      fc.constantFrom(NaN, Infinity, -Infinity), fc.double({ min: -1e6, max: least - 1e-6, noNaN: true }), fc.double({ min: greatest + 1e-6, max: 1e9, noNaN: true }),
    )
  }

  it.each(['ambientC', 'windMS', 'windAngleDeg', 'sunWPerM2', 'elevationM'] as const)('%s is refused by its name', (quantity) => {
    fc.assert(fc.property(conductor, weather, outside(quantity), (bare, at, value) => {
      const found = steadyTemperature(bare, 500, { ...at, [quantity]: value })
      expect(found).toMatchObject({ ok: false, error: { quantity, value: Number.isFinite(value) ? value : null } })
    }))
  })

  it.each(['diameterM', 'emissivity', 'absorptivity'] as const)('%s too', (quantity) => {
    fc.assert(fc.property(conductor, weather, outside(quantity), (bare, at, value) => {
      expect(currentAtA({ ...bare, [quantity]: value }, 75, at)).toMatchObject({ ok: false, error: { quantity } })
    }))
  })

  it('current, k, temperature and resistance too', () => {
    fc.assert(fc.property(conductor, weather, outside('currentA'), outside('k'), outside('surfaceC'), (bare, at, amps, ratio, surfaceC) => {
      expect(steadyTemperature(bare, amps, at)).toMatchObject({ ok: false, error: { quantity: 'currentA' } })
      expect(jointTemperature(bare, barrelOf(bare, 1), ratio, 100, at)).toMatchObject({ ok: false, error: { quantity: 'k' } })
      expect(currentAtA(bare, surfaceC, at)).toMatchObject({ ok: false, error: { quantity: 'surfaceC' } })
      const { lowOhmPerM } = bare.resistance
      const steep = { ...bare, resistance: { ...bare.resistance, highOhmPerM: lowOhmPerM * 1.6 } }
      expect(steadyTemperature(steep, 100, at)).toMatchObject({ ok: false, error: { quantity: 'coefficientPerK' } })
      const one = { ...bare, resistance: { ...bare.resistance, highC: 20 } }
      expect(steadyTemperature(one, 100, at).ok).toBe(false)
      expect(jointTemperature(bare, barrelOf(bare, 0.9), 1, 100, at)).toMatchObject({ ok: false, error: { quantity: 'diameterM' } })
    }))
  })

  it('the edges of every range are taken', () => {
    for (const [quantity, [least, greatest]] of Object.entries(HEAT_RANGES)) {
      expect(firstRefusal({ [quantity]: least })).toBeNull()
      expect(firstRefusal({ [quantity]: greatest })).toBeNull()
    }
  })
})

describe('the temperature', () => {
  it('balances: what is lost is what the current brings', () => {
    fc.assert(fc.property(conductor, weather, currentA, (bare, at, amps) => {
      const found = steadyTemperature(bare, amps, at)
      if (!found.ok || found.value.kind === 'runaway') return
      const surfaceC = found.value.temperatureC
      const excess = (temperatureC: number) => netLossWPerM(exchangeOf(bare, at), temperatureC) - amps * amps * ohmPerMAt(bare.resistance, temperatureC)
      expect(excess(surfaceC + 1e-6) >= -1e-9 || excess(surfaceC - 1e-6) <= 1e-9).toBe(true)
      expect(Math.sign(excess(surfaceC - 1e-6) - 1e-12)).toBeLessThanOrEqual(0)
    }), { numRuns: 3000 })
  })

  it('is the lowest at which it balances, found too by a search a hundred times finer', () => {
    fc.assert(fc.property(conductor, weather, currentA, evenly(0.05, 100), (bare, at, amps, ratio) => {
      const body = jointBody(bare, bare, ratio)
      const exchange = exchangeOf(body, at)
      const excess = (temperatureC: number) => netLossWPerM(exchange, temperatureC) - amps * amps * ohmPerMAt(body.resistance, temperatureC)
      let first = at.ambientC
      while (first < 400 && excess(first) < 0) first += 0.1
      const found = degrees(steadyTemperature(body, amps, at, ratio))
      if (first >= 400) expect(found).toBeGreaterThan(399.8)
      else expect(found).toBeLessThanOrEqual(first + 1e-6)
    }), { numRuns: 3000 })
  })

  it('of a splice with k 1 in a barrel like its conductor is the conductor’s', () => {
    fc.assert(fc.property(conductor, weather, currentA, (bare, at, amps) => {
      expect(jointTemperature(bare, bare, 1, amps, at)).toEqual(steadyTemperature(bare, amps, at))
    }))
  })

  it('rises with current, k, air and sun, and falls with wind and barrel', () => {
    fc.assert(fc.property(usualConductor, usualWeather, evenly(0.2, 8), fc.double({ min: 50, max: 900, noNaN: true }), (bare, at, ratio, amps) => {
      const t = (over: Partial<Weather> & { k?: number; amps?: number; barrel?: number } = {}) =>
        degrees(jointTemperature(bare, barrelOf(bare, over.barrel ?? 1.5), over.k ?? ratio, over.amps ?? amps, {
          ambientC: over.ambientC ?? at.ambientC, windMS: over.windMS ?? at.windMS, windAngleDeg: 90,
          sunWPerM2: over.sunWPerM2 ?? at.sunWPerM2, elevationM: at.elevationM,
        }))
      const here = t()
      if (here === Infinity) return
      const slack = 1e-6
      expect(t({ k: ratio * 1.1 })).toBeGreaterThanOrEqual(here - slack)
      expect(t({ amps: amps * 1.1 })).toBeGreaterThanOrEqual(here - slack)
      expect(t({ ambientC: at.ambientC + 2 })).toBeGreaterThanOrEqual(here - slack)
      expect(t({ sunWPerM2: at.sunWPerM2 + 50 })).toBeGreaterThanOrEqual(here - slack)
      expect(t({ windMS: at.windMS * 1.2 + 0.1 })).toBeLessThanOrEqual(here + slack)
    }), { numRuns: 1000 })
    // In the sun a thicker barrel also catches more of it, so only at night does it never run hotter.
    fc.assert(fc.property(usualConductor, usualWeather, evenly(0.2, 8), fc.double({ min: 50, max: 900, noNaN: true }), (bare, at, ratio, amps) => {
      const t = (factor: number) => degrees(jointTemperature(bare, barrelOf(bare, factor), ratio, amps, { ...at, sunWPerM2: 0 }))
      expect(t(1.7)).toBeLessThanOrEqual(t(1.4) + 1e-6)
    }), { numRuns: 1000 })
  })
})

describe('round trips', () => {
  it('the current at a temperature brings that temperature', () => {
    fc.assert(fc.property(usualConductor, usualWeather, fc.double({ min: 50, max: 130, noNaN: true }), (bare, at, surfaceC) => {
      const limit = currentAtA(bare, surfaceC, at)
      if (!limit.ok || limit.value.sunAlone || limit.value.currentA > 3000) return
      expect(degrees(steadyTemperature(bare, limit.value.currentA, at))).toBeCloseTo(surfaceC, 6)
    }), { numRuns: 2000 })
  })

  it('k from the temperature that k gave is k', () => {
    fc.assert(fc.property(usualConductor, usualWeather, evenly(0.2, 8), fc.double({ min: 50, max: 900, noNaN: true }), (bare, at, ratio, amps) => {
      const spliceC = degrees(jointTemperature(bare, barrelOf(bare), ratio, amps, at))
      if (spliceC === Infinity) return
      const back = kFromTemperature(bare, barrelOf(bare), spliceC, amps, at)
      if (!back.ok) throw new Error(JSON.stringify(back.error))
      expect(back.value / ratio).toBeCloseTo(1, 6)
    }), { numRuns: 2000 })
  })

  it('the wind from the temperature that a wind gave cools as that wind does', () => {
    fc.assert(fc.property(usualConductor, usualWeather, fc.double({ min: 100, max: 900, noNaN: true }), (bare, at, amps) => {
      const conductorC = degrees(steadyTemperature(bare, amps, at))
      if (conductorC === Infinity || conductorC - at.ambientC < 0.1) return
      const wind = effectiveWindMS(bare, conductorC + 1e-7, amps, at)
      const again = effectiveWindMS(bare, conductorC - 1e-7, amps, at)
      // In light wind the warm air rises by itself and the wind is not felt: there the still-air temperature answers for all of it.
      const windMS = wind.ok ? wind.value : again.ok ? again.value : 0
      expect(degrees(steadyTemperature(bare, amps, { ...at, windMS }))).toBeCloseTo(conductorC, 3)
    }), { numRuns: 2000 })
  })
})
