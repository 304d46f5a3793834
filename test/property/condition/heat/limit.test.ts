import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { defaultPolicy, policySchema, type Policy } from '@/lib/condition'
import { currentLimit, mvaOf, whatIfLimit, type LimitFacts } from '@/lib/condition/current-limit'
import { computedEdges } from '@/lib/condition/edges-computed'
import { currentAtA, steadyTemperature } from '@/lib/condition/heat/balance'
import { ohmPerMAt } from '@/lib/condition/heat/line-resistance'
import type { HeatedCylinder, Weather } from '@/lib/condition/heat/weather'
import { ratingWeatherOf } from '@/lib/condition/rating-weather'
import { upperK } from '@/lib/condition/upper-bound'
import { barrelOf, evenly, usualConductor, usualWeather } from './arbitrary'

const factsOf = (conductor: HeatedCylinder, over: Partial<LimitFacts> = {}): LimitFacts =>
  ({ bodies: { conductor, barrel: barrelOf(conductor), barrelTypical: true }, subconductors: 1, ...over })

const double = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const k = evenly(0.2, 20)

describe('the current limit', () => {
  const spliceA = (conductor: HeatedCylinder, ratio: number, weather: Weather, spliceC: number): number => {
    const found = whatIfLimit(factsOf(conductor), ratio, weather, spliceC, defaultPolicy)
    if (!found.ok) throw new Error(JSON.stringify(found.error))
    return found.value.spliceLineA
  }

  it('falls with k, with the root of it; rises with wind and temperature; falls with air and sun', () => {
    fc.assert(fc.property(usualConductor, usualWeather, k, double(60, 95), (conductor, weather, ratio, spliceC) => {
      const here = spliceA(conductor, ratio, weather, spliceC)
      const slack = 1e-9 * here
      expect(spliceA(conductor, ratio * 4, weather, spliceC)).toBeCloseTo(here / 2, 6)
      expect(spliceA(conductor, ratio, weather, spliceC + 5)).toBeGreaterThanOrEqual(here - slack)
      expect(spliceA(conductor, ratio, { ...weather, windMS: weather.windMS * 1.2 + 0.1 }, spliceC)).toBeGreaterThanOrEqual(here - slack)
      expect(spliceA(conductor, ratio, { ...weather, ambientC: weather.ambientC + 3 }, spliceC)).toBeLessThanOrEqual(here + slack)
      expect(spliceA(conductor, ratio, { ...weather, sunWPerM2: weather.sunWPerM2 + 100 }, spliceC)).toBeLessThanOrEqual(here + slack)
    }), { numRuns: 1000 })
  })

  it('is never over the rating of the section and never grows with k', () => {
    fc.assert(fc.property(usualConductor, k, k, double(50, 3000), fc.integer({ min: 1, max: 4 }), (conductor, a, b, ratingA, subconductors) => {
      const at = (ratio: number) => {
        const found = currentLimit(factsOf(conductor, { ratingA, subconductors }), ratio, defaultPolicy)
        if (!found.ok) throw new Error(JSON.stringify(found.error))
        return found.value
      }
      const [low, high] = [at(Math.min(a, b)), at(Math.max(a, b))]
      expect(high.lineA).toBeLessThanOrEqual(low.lineA + 1e-9)
      for (const limit of [low, high]) {
        expect(limit.lineA).toBeLessThanOrEqual(ratingA)
        expect(limit.use).toBe('for-operations')
      }
    }))
  })

  it('carried all day leaves the splice at the temperature', () => {
    fc.assert(fc.property(usualConductor, usualWeather, k, double(70, 95), (conductor, weather, ratio, spliceC) => {
      const currentA = spliceA(conductor, ratio, weather, spliceC)
      if (currentA === 0 || currentA > 3000) return
      const { barrel } = factsOf(conductor).bodies
      const { resistance } = conductor
      const body = { ...barrel, resistance: { ...resistance, lowOhmPerM: resistance.lowOhmPerM * ratio, highOhmPerM: resistance.highOhmPerM * ratio } }
      const found = steadyTemperature(body, currentA, weather, ratio)
      expect(found.ok && found.value.kind === 'steady' && found.value.temperatureC).toBeCloseTo(spliceC, 6)
    }))
  })
})

describe('units', () => {
  it('do not matter: the resistance given at other temperatures of its line, or in shares of the current, is the same', () => {
    fc.assert(fc.property(usualConductor, usualWeather, double(60, 120), double(-10, 40), double(50, 150), (conductor, weather, surfaceC, lowC, highC) => {
      const { resistance } = conductor
      const other: HeatedCylinder = {
        ...conductor, resistance: { lowC, lowOhmPerM: ohmPerMAt(resistance, lowC), highC, highOhmPerM: ohmPerMAt(resistance, highC) },
      }
      const [one, two] = [currentAtA(conductor, surfaceC, weather), currentAtA(other, surfaceC, weather)]
      if (!one.ok || !two.ok) throw new Error('refused')
      expect(two.value.currentA).toBeCloseTo(one.value.currentA, 6)
    }))
  })

  it('two subconductors carry twice the line current, and kilovolts make MVA', () => {
    fc.assert(fc.property(usualConductor, k, double(1, 800), (conductor, ratio, voltageKv) => {
      const at = (subconductors: number) => {
        const found = currentLimit(factsOf(conductor, { subconductors, voltageKv }), ratio, defaultPolicy)
        if (!found.ok) throw new Error(JSON.stringify(found.error))
        return found.value
      }
      const [one, two] = [at(1), at(2)]
      expect(two.lineA / one.lineA).toBeCloseTo(2, 9)
      expect(one.mva ?? 0).toBeCloseTo(mvaOf(one.lineA, voltageKv), 9)
      expect((one.mva ?? 0) * 1e6).toBeCloseTo(3 * ((voltageKv * 1000) / Math.sqrt(3)) * one.lineA, 0)
    }))
  })
})

describe('computed edges', () => {
  it('rise, and fall as the section may run hotter', () => {
    fc.assert(fc.property(usualConductor, double(76, 100), double(0, 12), double(0, 45), (conductor, maxC, hotterK, ambientC) => {
      const policy: Policy = { ...policySchema.parse({ ratingWeather: { ambientC, emissivity: conductor.emissivity } }), version: 0 }
      const { bodies } = factsOf(conductor)
      const [one, two] = [computedEdges(bodies, maxC, policy), computedEdges(bodies, maxC + hotterK, policy)]
      for (const edges of [one, two]) {
        if (!edges.ok) continue
        const { watch, degraded, urgent, critical } = edges.value
        expect(watch <= degraded && degraded < urgent && urgent < critical).toBe(true)
      }
      if (!one.ok || !two.ok) return
      expect(two.value.urgent).toBeLessThanOrEqual(one.value.urgent + 1e-9)
      expect(two.value.critical).toBeLessThanOrEqual(one.value.critical + 1e-9)
    }), { numRuns: 500 })
  })

  it('mean what they say: at full rating a splice at its urgent edge is at the limit temperature', () => {
    fc.assert(fc.property(usualConductor, double(80, 99), (conductor, maxC) => {
      const { bodies } = factsOf(conductor)
      const edges = computedEdges(bodies, maxC, defaultPolicy)
      const rated = currentAtA(conductor, maxC, ratingWeatherOf(defaultPolicy))
      if (!edges.ok || !rated.ok || edges.value.urgent === defaultPolicy.edges.urgent) return
      const found = whatIfLimit({ bodies, subconductors: 1 }, edges.value.urgent, ratingWeatherOf(defaultPolicy), defaultPolicy.limit.temperatureC, defaultPolicy)
      expect(found.ok && found.value.spliceLineA).toBeCloseTo(rated.value.currentA, 6)
    }))
  })
})

describe('the upper bound of k', () => {
  it('rises with mean, doubt and chance, and is that of the worst side', () => {
    const belief = fc.record({ mean: double(-2, 3), sd: double(0.01, 1) })
    fc.assert(fc.property(belief, belief, double(0.5, 0.99), (a, b, upperShare) => {
      const policy: Policy = { ...defaultPolicy, limit: { ...defaultPolicy.limit, upperShare } }
      const surer: Policy = { ...defaultPolicy, limit: { ...defaultPolicy.limit, upperShare: Math.min(0.999, upperShare + 0.005) } }
      const both = upperK([a, b], policy)
      expect(both).toBe(Math.max(upperK([a], policy), upperK([b], policy)))
      expect(upperK([a, b], surer)).toBeGreaterThan(both)
      expect(both).toBeGreaterThanOrEqual(Math.exp(Math.max(a.mean, b.mean)) * (1 - 1e-9))
    }))
  })
})
