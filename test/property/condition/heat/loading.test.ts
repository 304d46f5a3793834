import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { defaultPolicy } from '@/lib/condition'
import { steady } from '@/lib/condition/heat/balance'
import { jointBody } from '@/lib/condition/heat/joint'
import { carriedK } from '@/lib/condition/loading/carried-k'
import { flightVerdict } from '@/lib/condition/loading/flight'
import { usualErrorLnK } from '@/lib/condition/loading/held-finding-k'
import { heatedWith } from '@/lib/condition/loading/line-joint'
import { allowedLineA } from '@/lib/condition/loading/line-limit'
import { jointTemperatures } from '@/lib/condition/loading/line-temperatures'
import { fuse, priorBelief } from '@/lib/condition/posterior'
import type { SideAssessment } from '@/lib/condition/types'
import { barrelOf, evenly, usualConductor, usualWeather } from './arbitrary'

const ratio = evenly(0.1, 8)
const load = fc.double({ min: 1, max: 2500, noNaN: true })
const bodies = usualConductor.map((conductor) => ({ conductor, barrel: barrelOf(conductor), barrelTypical: true }))
const hotness = (temperatureC: number | null | undefined): number => temperatureC ?? Infinity

const found = (...of: Parameters<typeof jointTemperatures>) => {
  const result = jointTemperatures(...of)
  if (!result.ok) throw new Error(JSON.stringify(result.error))
  return result.value
}

describe('the splices of a line', () => {
  it('have the temperature that the heat balance gives each by itself', () => {
    fc.assert(fc.property(bodies, ratio, ratio, load, usualWeather, (body, k, wider, amps, at) => {
      const upperK = Math.min(100, k * (1 + wider))
      const [joint] = found([heatedWith(body, 1, k, upperK)], amps, at)
      for (const [shown, of] of [[joint?.believedC, k], [joint?.upperC, upperK]] as const) {
        const alone = steady(jointBody(body.conductor, body.barrel, of), amps, at)
        if (alone.kind === 'runaway') expect(shown).toBeNull()
        else expect(shown).toBeCloseTo(alone.temperatureC, 3)
      }
    }), { numRuns: 2000 })
  })

  it('are no cooler with a higher ratio, nor at a higher current', () => {
    fc.assert(fc.property(bodies, ratio, ratio, load, load, usualWeather, (body, a, b, amps, more, at) => {
      const [k, worse] = [Math.min(a, b), Math.max(a, b)]
      const [cool, hot] = found([heatedWith(body, 1, k, worse), heatedWith(body, 1, worse, worse)], amps, at)
      expect(hotness(hot?.believedC)).toBeGreaterThanOrEqual(hotness(cool?.believedC) - 1e-4)
      expect(hotness(cool?.upperC)).toBeGreaterThanOrEqual(hotness(cool?.believedC) - 1e-4)
      const [loaded] = found([heatedWith(body, 1, k, worse)], Math.min(3000, amps + more), at)
      expect(hotness(loaded?.upperC)).toBeGreaterThanOrEqual(hotness(cool?.upperC) - 1e-4)
    }), { numRuns: 2000 })
  })

  it('allow no more in warmer air, nor with a higher ratio', () => {
    fc.assert(fc.property(bodies, ratio, ratio, usualWeather, fc.double({ min: 0, max: 15, noNaN: true }), (body, a, b, at, warmer) => {
      const pair = [Math.min(a, b), Math.max(a, b)].map((k) => heatedWith(body, 1, k, k))
      const [good = NaN, bad = NaN] = allowedLineA(pair, at, defaultPolicy)
      expect(bad).toBeLessThanOrEqual(good)
      const [inWarmAir = NaN] = allowedLineA(pair, { ...at, ambientC: at.ambientC + warmer }, defaultPolicy)
      expect(inWarmAir).toBeLessThanOrEqual(good + 1e-6)
    }), { numRuns: 2000 })
  })

  it('reach the limit temperature at the current that they allow', () => {
    fc.assert(fc.property(bodies, ratio, usualWeather, (body, k, at) => {
      const joint = heatedWith(body, 1, k, k)
      const [allowedA = 0] = allowedLineA([joint], at, defaultPolicy)
      if (allowedA === 0 || allowedA > 3000) return
      const [hot] = found([joint], allowedA, at)
      // A balance that falls back before the limit has two rests; the lower one is where the splice lies.
      expect(hotness(hot?.upperC)).toBeLessThanOrEqual(defaultPolicy.limit.temperatureC + 1e-3)
    }), { numRuns: 2000 })
  })
})

describe('a finding that is held against a better reading', () => {
  it('never allows more than the same ratio, or a lower one, that nothing contradicts', () => {
    const judged = (k: number, sd: number) => ({ class: 'critical' as const, sides: [{ meanLnK: fused(k, sd).mean, sdLnK: fused(k, sd).sd, flags: [] as string[] }] as SideAssessment[] })
    const fused = (k: number, sd: number) => fuse(priorBelief(defaultPolicy), [{ mean: Math.log(k), sd }])
    fc.assert(fc.property(evenly(1.85, 8), evenly(0.5, 1), evenly(0.2, 1), (k, lower, now) => {
      // What is read is at best as sure as the usual instrument; what contradicts it may be any better ratio.
      const read = carriedK(judged(k * lower, usualErrorLnK(k * lower, defaultPolicy)), { held: false }, 0, defaultPolicy)
      const held = carriedK(judged(k * now * 0.5, 0.05), { held: true, foundRatio: k }, 0, defaultPolicy)
      expect(held.upperK).toBeGreaterThanOrEqual(read.upperK - 1e-9)
      expect(held.figure).toBe(false)
    }), { numRuns: 1000 })
  })
})

describe('the load that a flight needs', () => {
  it('is one at which a bad splice shows, and a little less does not', () => {
    fc.assert(fc.property(bodies, fc.double({ min: 0.3, max: 4, noNaN: true }), fc.double({ min: -20, max: 40, noNaN: true }),
      fc.constantFrom('none' as const, 'diffuse' as const, 'direct' as const), (body, windMS, ambientC, sky) => {
        const at = (lineA: number) => {
          const verdict = flightVerdict(
            { bodies: [body], subconductors: 1, ratingA: 900 }, lineA, { ambientC, windMS, sky }, { netdK: 0.05, ifovMrad: 1 }, defaultPolicy,
          )
          if (!verdict.ok) throw new Error(JSON.stringify(verdict.error))
          return verdict.value
        }
        const { neededLineA } = at(10)
        if (neededLineA === null) return
        expect(at(neededLineA).wouldShow).toBe(true)
        if (neededLineA > 2) expect(at(neededLineA - 1.5).wouldShow).toBe(false)
      }), { numRuns: 300 })
  })
})
