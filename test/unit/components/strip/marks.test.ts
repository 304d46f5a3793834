import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { scaleOf } from '@/components/strip/axis'
import { isCalling, laneOf, lanesOf, MARK_APART_PX, marksOf, spread, type Marked } from '@/components/strip/marks'
import { CONDITION_CLASSES } from '@/lib/condition/types'

const scale = scaleOf({ fromM: 0, toM: 120_000 }, 60, 1000)
const splice = (id: number, cls: Marked['class'], axisM: number, ratio: number | null = null): Marked => ({ id, class: cls, axisM, ratio })
const lane = fc.array(fc.record({
  class: fc.constantFrom(...CONDITION_CLASSES), axisM: fc.double({ min: 0, max: 120_000, noNaN: true }), ratio: fc.option(fc.double({ min: 0.3, max: 6, noNaN: true })),
}), { maxLength: 400 }).map((all) => all.map((one, id) => ({ id, ...one })))

describe('the marks of a lane', () => {
  it('stand for every splice in view exactly once', () => {
    fc.assert(fc.property(lane, (all) => {
      const shown = marksOf(all, scale).flatMap((mark) => [mark.splice, ...mark.behind]).map(({ id }) => id)
      expect(shown.sort((a, b) => a - b)).toEqual(all.map(({ id }) => id))
    }))
  })

  it('never hide an urgent or critical splice behind another', () => {
    fc.assert(fc.property(lane, (all) => {
      for (const { behind } of marksOf(all, scale)) expect(behind.filter(isCalling)).toEqual([])
    }))
  })

  it('have the worst of those that overlap on top', () => {
    const [mark, ...rest] = marksOf([splice(1, 'sound', 5_000, 0.6), splice(2, 'degraded', 5_200, 1.4), splice(3, 'watch', 5_100, 1.1)], scale)
    expect(rest).toEqual([])
    expect(mark?.splice.id).toBe(2)
    expect(mark?.behind.map(({ id }) => id)).toEqual([3, 1])
  })

  it('leave each other the room of a mark, closer only for what calls', () => {
    fc.assert(fc.property(lane, (all) => {
      const marks = marksOf(all, scale)
      for (const [i, b] of marks.entries()) {
        const a = marks[i - 1]
        if (a && !(isCalling(a.splice) && isCalling(b.splice))) expect(b.xPx - a.xPx).toBeGreaterThanOrEqual(MARK_APART_PX - 1e-9)
      }
    }))
  })

  it('stay within the strip and keep the order of the line where what calls is moved aside', () => {
    const crowd = Array.from({ length: 12 }, (_, i) => splice(i, 'critical', 100 + i))
    const marks = marksOf(crowd, scale)
    expect(marks.map((m) => m.splice.id)).toEqual(crowd.map(({ id }) => id))
    for (const [i, { xPx }] of marks.entries()) {
      expect(xPx).toBeGreaterThanOrEqual(scale.fromPx)
      if (i > 0) expect(xPx - (marks[i - 1]?.xPx ?? 0)).toBeGreaterThanOrEqual(12.9)
    }
  })

  it('of 2,000 splices on one lane are laid out within a frame or two', () => {
    const many = Array.from({ length: 2000 }, (_, i) => splice(i, CONDITION_CLASSES[i % 3] ?? 'sound', i * 60))
    const startMs = performance.now()
    marksOf(many, scale)
    expect(performance.now() - startMs).toBeLessThan(100)
  })
})

describe('places moved apart', () => {
  it('keep their order, their distance and the range', () => {
    fc.assert(fc.property(fc.array(fc.double({ min: 0, max: 1000, noNaN: true }), { maxLength: 200 }), (wanted) => {
      const places = spread(wanted.sort((a, b) => a - b), 13, 0, 1000)
      const apart = Math.min(13, 1000 / Math.max(1, wanted.length - 1))
      for (const [i, px] of places.entries()) {
        expect(px).toBeGreaterThanOrEqual(-1e-6)
        expect(px).toBeLessThanOrEqual(1000 + 1e-6)
        if (i > 0) expect(px - (places[i - 1] ?? 0)).toBeGreaterThanOrEqual(apart - 1e-6)
      }
    }))
  })

  it('do not move where there is room', () => {
    expect(spread([10, 40, 90], 13, 0, 100)).toEqual([10, 40, 90])
    expect(spread([50, 50], 10, 0, 100)).toEqual([45, 55])
  })
})

describe('lanes', () => {
  it('are the phases, then positions where the phase is not confirmed, then what nothing is known of', () => {
    expect(lanesOf([])).toEqual(['phase:A', 'phase:B', 'phase:C'])
    expect(lanesOf([{ phase: null, position: null }, { phase: null, position: 'bottom' }, { phase: null, position: 'top' }, { phase: 'B', position: 'top' }]))
      .toEqual(['phase:A', 'phase:B', 'phase:C', 'position:top', 'position:bottom', 'unknown'])
    expect(laneOf({ phase: null, position: 'top' })).toBe('position:top')
  })
})
