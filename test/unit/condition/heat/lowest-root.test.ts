import { describe, expect, it } from 'vitest'
import { currentAtA, steadyTemperature } from '@/lib/condition/heat/balance'
import { lowestRoot } from '@/lib/condition/heat/lowest-root'
import type { HeatedCylinder, Weather } from '@/lib/condition/heat/weather'

describe('the lowest root', () => {
  it('is the first of several, even on a hump between two steps', () => {
    // Over 0 only from 99.68 to 100.32, and again from 300 on.
    const hump = (x: number) => 1.001 * Math.exp(-(((x - 100) / 10) ** 2)) - 1 + (x > 250 ? (x - 250) / 50 : 0)
    const found = lowestRoot(hump, 0, 400, 1e-9) ?? NaN
    expect(found).toBeCloseTo(100 - 10 * Math.sqrt(Math.log(1.001)), 6)
  })

  it('is beyond a hump that stays under 0, and none where nothing reaches it', () => {
    const hump = (x: number) => 0.9 * Math.exp(-(((x - 100) / 10) ** 2)) - 1 + (x > 250 ? (x - 250) / 50 : 0)
    expect(lowestRoot(hump, 0, 400, 1e-9)).toBeCloseTo(300, 6)
    expect(lowestRoot(hump, 0, 280, 1e-9)).toBeNull()
  })

  it('is the start where that is one', () => {
    expect(lowestRoot((x) => x - 7, 7, 400, 1e-9)).toBe(7)
  })
})

describe('runaway', () => {
  /** Steep: 1 % a kelvin, as no metal is, in wind along the line: hotter than its best, every kelvin heats more than it cools. */
  const steep: HeatedCylinder = {
    diameterM: 0.01, emissivity: 0.15, absorptivity: 0.15, resistance: { lowC: 20, lowOhmPerM: 4e-4, highC: 75, highOhmPerM: 4e-4 * 1.55 },
  }
  const cold: Weather = { ambientC: -50, windMS: 20, windAngleDeg: 90, sunWPerM2: 0, elevationM: 0 }

  it('is reported where the current is more than any temperature up to 400 °C can shed', () => {
    const most = Math.max(...Array.from({ length: 4500 }, (_, i) => {
      const found = currentAtA(steep, -49.9 + i * 0.1, cold)
      return found.ok ? found.value.currentA : 0
    }))
    expect(steadyTemperature(steep, most * 0.99, cold)).toMatchObject({ ok: true, value: { kind: 'steady' } })
    expect(steadyTemperature(steep, most * 1.001, cold)).toEqual({ ok: true, value: { kind: 'runaway' } })
  })
})
