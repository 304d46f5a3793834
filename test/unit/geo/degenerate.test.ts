import { describe, expect, it, vi } from 'vitest'
import { placeReadings, type PointToPlace } from '@/lib/geo'
import { at, network, splice } from '../../fixtures/geo/double-circuit'
import { beside, reading, sketch, vertices } from '../../fixtures/geo/lines'

vi.setConfig({ testTimeout: 60_000 })

/** Time must grow with the readings, not with their square: these run for minutes where it does. */
const MANY = 30_000
const many = (make: (index: number) => PointToPlace): PointToPlace[] => Array.from({ length: MANY }, (_, index) => make(index))

describe('files that could take for ever', () => {
  it('all readings on one spot, each with a picture of its own', () => {
    const spot = at(700, -6, { sigmaM: 1 })
    const { outcomes, newSplices } = placeReadings(network, many((index) => ({ ...spot, index, photo: `p${index}` })), [], [])
    expect(newSplices).toHaveLength(MANY)
    expect(new Set(outcomes.map(({ newSpliceKey }) => newSpliceKey)).size).toBe(MANY)
  })

  it('all readings on one spot, all alike', () => {
    const spot = at(700, -6, { sigmaM: 1, takenAtMs: 1e12 })
    const { newSplices } = placeReadings(network, many((index) => ({ ...spot, index })), [], [])
    expect(newSplices).toMatchObject([{ readings: MANY }])
  })

  it('an accuracy of a million metres, or none', () => {
    for (const sigmaM of [1e6, Number.POSITIVE_INFINITY, Number.NaN]) {
      const { outcomes } = placeReadings(network, [at(700, 0, { sigmaM })], [], [])
      expect(outcomes.every(({ state }) => state === 'review')).toBe(true)
    }
  })

  it('structures and splices whose names every circuit has', () => {
    const lines = Array.from({ length: 400 }, (_, i) => vertices(-110, 40 + i * 0.02, [90, 300], [90, 300]))
    const wide = sketch(...lines.map((lonLat, i) => ({ circuit: `C${i}`, lonLat })))
    const splices = lines.map((_, i) => splice(i + 1, 'Elk', 320, { label: 'S-1', circuitId: i + 1, sectionId: i + 1 }))
    const points = Array.from({ length: 3_000 }, (_, index) => {
      const spliceLabel = index % 2 === 0 ? 'S-1' : undefined
      return reading({ index, ...beside(lines[index % 400]!, 320, 2), structureBack: '2', structureAhead: '3', spliceLabel })
    })
    const { outcomes } = placeReadings(wide, points, splices, [])
    expect(outcomes.map(({ spliceId }) => spliceId)).toEqual(points.map((_, i) => (i % 400) + 1))
  })
})
