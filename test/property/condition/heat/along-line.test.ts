import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { alongLineFactor } from '@/lib/condition/heat/along-line-factor'
import { axialProfile, type AlongLine } from '@/lib/condition/heat/fins'
import { kFromTemperature } from '@/lib/condition/heat/joint'
import { inRange, k, currentA, barrelOf, usualConductor, usualWeather, weather, withBarrel } from './arbitrary'

/** A barrel 25 diameters long, of three times its conductor's metal, both of aluminium. */
const usualLine = (diameterM: number): AlongLine => {
  const conductorWMPerK = 230 * 0.785 * 0.75 * diameterM * diameterM
  return { barrelLengthM: Math.max(0.1, 25 * diameterM), barrelWMPerK: 3 * conductorWMPerK, conductorWMPerK }
}

describe('a ratio with heat along the line', () => {
  it('comes back from the middle of the barrel that it heats', () => {
    let told = 0
    fc.assert(fc.property(usualConductor, usualWeather, fc.double({ min: 0.4, max: 4, noNaN: true }), fc.double({ min: 0.3, max: 0.9, noNaN: true }), (bare, at, ratio, share) => {
      const [barrel, along] = [barrelOf(bare), usualLine(bare.diameterM)]
      const amps = share * 1.1e6 * bare.diameterM * bare.diameterM
      const profile = axialProfile(bare, barrel, ratio, along, amps, { ...at, windMS: Math.max(0.5, at.windMS) })
      if (!profile.ok || profile.value.spliceAloneC > 150) return
      const lumped = kFromTemperature(bare, barrel, profile.value.centreC, amps, { ...at, windMS: Math.max(0.5, at.windMS) })
      if (!lumped.ok) return
      const factor = alongLineFactor(bare, barrel, lumped.value, profile.value.centreC, along, amps, { ...at, windMS: Math.max(0.5, at.windMS) })
      if (factor === null) return
      told++
      expect(Math.abs((lumped.value * factor) / ratio - 1)).toBeLessThan(1e-6)
      // Hotter than its conductor it reads low without, colder it reads high.
      const overK = profile.value.spliceAloneC - profile.value.conductorFarC
      if (Math.abs(overK) > 0.01) expect(Math.sign(factor - 1)).toBe(Math.sign(overK))
    }), { numRuns: 2000 })
    expect(told).toBeGreaterThan(1500)
  })

  it('is a number over 0 or none, whatever goes in', () => {
    const along = fc.record({
      barrelLengthM: inRange('barrelLengthM'), barrelWMPerK: inRange('alongLineWMPerK'), conductorWMPerK: inRange('alongLineWMPerK'),
    })
    fc.assert(fc.property(withBarrel, weather, currentA, k, inRange('surfaceC'), along, ({ conductor: bare, barrel }, at, amps, ratio, middleC, line) => {
      const factor = alongLineFactor(bare, barrel, ratio, middleC, line, amps, at)
      expect(factor === null || (Number.isFinite(factor) && factor > 0)).toBe(true)
    }), { numRuns: 3000 })
  })
})
