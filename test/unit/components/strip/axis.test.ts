import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  distanceTicks, formatStretch, layOut, LEAST_STRETCH_M, onAxis, panned, parseStretch, scaleOf, structureNames, wholeOf, within, zoomed, type Stretch,
} from '@/components/strip/axis'

const section = (id: number, name: string, endM: number, startM = 0) => ({ id, name, from: null, to: null, start_m: startM, end_m: endM, structures: [] })
const main = layOut([section(1, 'main', 120_000)])
const whole = wholeOf(main)

describe('sections on one axis', () => {
  it('begin with the main one at its own line distance, a tap after a gap', () => {
    const laid = layOut([section(1, 'main', 9_000), section(2, 'tap', 1_000)])
    expect(laid).toMatchObject([{ fromM: 0, toM: 9_000 }, { fromM: 9_200, toM: 10_200 }])
    const tap = laid[1]
    if (!tap) throw new Error('no tap')
    expect(onAxis(tap, 250)).toBe(9_450)
    expect(wholeOf(laid)).toEqual({ fromM: 0, toM: 10_200 })
  })

  it('of a circuit without any leave an axis that divides by nothing', () => {
    expect(wholeOf([])).toEqual({ fromM: 0, toM: 1 })
  })
})

const stretches = fc.tuple(fc.double({ min: -1e5, max: 3e5, noNaN: true }), fc.double({ min: 0, max: 3e5, noNaN: true })).map(([a, w]): Stretch => ({ fromM: a, toM: a + w }))

describe('a stretch in view', () => {
  it('never leaves the line and never shrinks below what shows something', () => {
    fc.assert(fc.property(stretches, fc.double({ min: -1e5, max: 3e5, noNaN: true }), fc.double({ min: 0.05, max: 20, noNaN: true }), (s, byM, factor) => {
      const start = within(s, whole)
      for (const { fromM, toM } of [start, panned(start, byM, whole), zoomed(start, start.fromM, factor, whole)]) {
        expect(fromM).toBeGreaterThanOrEqual(whole.fromM - 1e-6)
        expect(toM).toBeLessThanOrEqual(whole.toM + 1e-6)
        expect(toM - fromM).toBeGreaterThanOrEqual(LEAST_STRETCH_M - 1e-6)
      }
    }))
  })

  it('keeps the place under the pointer when it is zoomed', () => {
    const now = { fromM: 40_000, toM: 60_000 }
    const next = zoomed(now, 45_000, 0.5, whole)
    expect(next).toEqual({ fromM: 42_500, toM: 52_500 })
    expect(scaleOf(next, 0, 1000).x(45_000)).toBeCloseTo(scaleOf(now, 0, 1000).x(45_000), 9)
  })

  it('keeps its width when it is panned against an end', () => {
    expect(panned({ fromM: 1_000, toM: 5_000 }, -9_000, whole)).toEqual({ fromM: 0, toM: 4_000 })
  })

  it('reads the same after a round trip through the address', () => {
    expect(parseStretch(formatStretch({ circuitId: 7, fromM: 1200.4, toM: 9000 }))).toEqual({ circuitId: 7, fromM: 1200, toM: 9000 })
    for (const bad of ['', '7', '7,5', '7,9,3', 'x,1,2', '0,1,2', '7,1,2,3', '7,1e9,2e9']) expect(parseStretch(bad)).toBeNull()
  })
})

describe('ticks', () => {
  it.each(['us', 'metric'] as const)('are never closer than their labels are wide, whatever is in view (%s)', (system) => {
    fc.assert(fc.property(stretches, fc.integer({ min: 240, max: 2400 }), (s, widthPx) => {
      const shown = within(s, whole)
      const ticks = distanceTicks(main, shown, scaleOf(shown, 60, widthPx), system)
      for (const [i, tick] of ticks.entries()) if (i > 0) expect(tick.xPx - (ticks[i - 1]?.xPx ?? 0)).toBeGreaterThanOrEqual(74)
    }))
  })

  it('stand at round figures of the unit of the setting', () => {
    const scale = scaleOf(whole, 0, 900)
    expect(distanceTicks(main, whole, scale, 'metric').map(({ text }) => text)).toEqual(['0 km', '20 km', '40 km', '60 km', '80 km', '100 km', '120 km'])
    const miles = distanceTicks(main, whole, scale, 'us')
    expect(miles.every(({ text }) => /^\d+ mi$/.test(text))).toBe(true)
    // The international mile of 1959 is 1609.344 m.
    expect(miles[1]?.m).toBeCloseTo(1609.344 * Number(miles[1]?.text.split(' ')[0]), 6)
    const near = { fromM: 1_000, toM: 2_000 }
    expect(distanceTicks(main, near, scaleOf(near, 0, 900), 'metric').map(({ text }) => text)).toEqual(['1 km', ...[1, 2, 3, 4, 5, 6, 7, 8, 9].map((n) => `1.${n} km`), '2 km'])
  })

  it('say the line distance of the section that they stand on', () => {
    const laid = layOut([section(1, 'main', 9_000), section(2, 'tap', 1_000)])
    const all = wholeOf(laid)
    const onTap = distanceTicks(laid, all, scaleOf(all, 0, 3000), 'metric').filter(({ m }) => m >= 9_200)
    expect(onTap[0]).toMatchObject({ m: 9_700, text: '0.5 km' })
  })

  it('name structures only where their names do not touch', () => {
    fc.assert(fc.property(fc.array(fc.record({ m: fc.double({ min: 0, max: 120_000, noNaN: true }), name: fc.string({ minLength: 1, maxLength: 8 }) })), (all) => {
      const names = structureNames(all.sort((a, b) => a.m - b.m), scaleOf(whole, 60, 1000))
      for (const [i, b] of names.entries()) {
        const a = names[i - 1]
        if (a) expect(b.xPx - a.xPx).toBeGreaterThan(((a.text.length + b.text.length) / 2) * 6.5)
      }
    }))
  })
})
