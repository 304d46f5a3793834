import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import { assembleSections, placeReadings, type PointToPlace } from '@/lib/geo'
import { CORRIDOR, at, network, splice } from '../../fixtures/geo/double-circuit'

// Many cases on a machine that others share.
vi.setConfig({ testTimeout: 60_000 })

const SPLICES = [
  splice(1, 'Elk', 400, { label: 'E-1' }),
  splice(2, 'Elk', 1_200, { phase: 'B' }),
  splice(3, 'Moose', 410),
  splice(4, 'Moose', 1_190),
]
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined, freq: 2 })

/** Readings as files give them: good, bad and contradicting themselves. */
const anyReading: fc.Arbitrary<PointToPlace> = fc
  .record({
    alongM: fc.double({ min: 0, max: 3_000, noNaN: true }),
    rightM: fc.double({ min: -40, max: 40, noNaN: true }),
    lon: maybe(fc.constantFrom(0, Number.NaN, 200, Number.POSITIVE_INFINITY)),
    fields: fc.record({
      sigmaM: fc.constantFrom(0, 0.5, 4, 15),
      positionOf: fc.constantFrom('target' as const, 'platform' as const),
      platform: maybe(fc.constantFrom('ground', 'helicopter', 'uncrewed')),
      takenAtMs: maybe(fc.integer({ min: 1e12, max: 1e12 + 4 * 3_600_000 })),
      crew: maybe(fc.constantFrom('one', 'two')),
      circuit: maybe(fc.constantFrom('Elk', 'moose', 'Bison')),
      structureBack: maybe(fc.constantFrom('3', '5', '77')),
      structureAhead: maybe(fc.constantFrom('4', '5', '2')),
      offsetFromStructureM: maybe(fc.double({ min: -50, max: 700, noNaN: true })),
      spanFraction: maybe(fc.double({ min: 0, max: 1, noNaN: true })),
      phase: maybe(fc.constantFrom('A', 'B')),
      position: maybe(fc.constantFrom('top', 'bottom')),
      circuitSide: maybe(fc.constantFrom('left', 'right', 'north')),
      spliceLabel: maybe(fc.constantFrom('E-1', 'E-9')),
      photo: maybe(fc.constantFrom('p1', 'p2')),
    }),
  })
  .map(({ alongM, rightM, lon, fields }) => ({ ...at(alongM, rightM), ...fields, ...(lon !== undefined && { lon, lat: lon }) }))
const files = fc.array(anyReading, { maxLength: 40 }).map((points) => points.map((point, index) => ({ ...point, index })))
const PHASING = [{ circuitId: 1, startM: 0, endM: 1_500, position: 'top', phase: 'A' }]

describe('any file of readings', () => {
  it('comes back whole: placed with a circuit and one splice, or for review with a reason', () => {
    fc.assert(
      fc.property(files, (points) => {
        const { outcomes, newSplices } = placeReadings(network, points, SPLICES, PHASING)
        expect(outcomes.map(({ index }) => index)).toEqual(points.map(({ index }) => index))
        const keys = new Set(newSplices.map(({ key }) => key))
        expect(keys.size).toBe(newSplices.length)
        for (const { state, chosen, spliceId, newSpliceKey, probability, reasons, candidates } of outcomes) {
          for (const one of candidates) {
            expect(one.probability).toBeGreaterThanOrEqual(0)
            expect(one.probability).toBeLessThanOrEqual(1 + 1e-9)
            expect(Number.isFinite(one.lon) && Number.isFinite(one.lat)).toBe(true)
          }
          if (state === 'review') expect(reasons.length).toBeGreaterThan(0)
          else {
            expect(chosen).toBeDefined()
            expect(probability).toBeGreaterThanOrEqual(0.9)
            expect((spliceId === undefined) !== (newSpliceKey === undefined)).toBe(true)
            if (newSpliceKey !== undefined) expect(keys.has(newSpliceKey)).toBe(true)
          }
        }
        expect(newSplices.reduce((sum, { readings }) => sum + readings, 0)).toBe(
          outcomes.filter(({ newSpliceKey }) => newSpliceKey !== undefined).length,
        )
      }),
      { numRuns: 300 },
    )
  })

  it('comes out the same when it is placed again', () => {
    fc.assert(
      fc.property(files, (points) => {
        expect(placeReadings(network, points, SPLICES, PHASING)).toEqual(placeReadings(network, points, [...SPLICES].reverse(), PHASING))
      }),
      { numRuns: 100 },
    )
  })
})

describe('any cut of a line into features', () => {
  it('joins to the same section', () => {
    const cuts = fc
      .uniqueArray(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 8 })
      .map((at) => [0, ...at.sort((a, b) => a - b), 10])
    fc.assert(
      fc.property(cuts, fc.infiniteStream(fc.boolean()), fc.infiniteStream(fc.nat()), (bounds, flips, order) => {
        const pieces = bounds.slice(1).map((to, k) => {
          const points = Array.from({ length: to - bounds[k]! + 1 }, (_, i) =>
            CORRIDOR.slice(2 * (bounds[k]! + i), 2 * (bounds[k]! + i) + 2),
          )
          return Float64Array.from((flips.next().value && k > 0 ? points.reverse() : points).flat())
        })
        // The first piece sets the direction, so it stays first.
        const rest = pieces
          .slice(1)
          .map((piece) => ({ piece, key: order.next().value! }))
          .sort((a, b) => a.key - b.key)
        const features = [pieces[0]!, ...rest.map(({ piece }) => piece)].map((piece, i) => ({
          rowNo: i + 1,
          circuit: 'Elk',
          section: null,
          pieces: [piece],
        }))
        const { sections, issues } = assembleSections(features)
        expect(issues).toEqual([])
        expect([...sections[0]!.lonLat]).toEqual(CORRIDOR)
      }),
    )
  })
})
