import geographic from 'geographiclib-geodesic'
import { describe, expect, it } from 'vitest'
import { stepsAside } from '@/components/map/pick'
import { graticule, graticuleStepDeg } from '@/components/map/use-graticule'
import { groundCircle, markOf } from '@/components/map/use-placement'
import type { PlacementOverlay } from '@/components/map/types'

describe('the circle of accuracy', () => {
  it.each([0, 35, 52, 65])('has its radius on the ground to 1 % at latitude %d', (lat) => {
    for (const radiusM of [3, 12, 120]) {
      for (const [ringLon, ringLat] of groundCircle(-114, lat, radiusM)) {
        // Reference: geographiclib-geodesic on WGS84.
        const { s12 = 0 } = geographic.Geodesic.WGS84.Inverse(lat, -114, ringLat, ringLon)
        expect(Math.abs(s12 - radiusM) / radiusM).toBeLessThan(0.01)
      }
    }
  })
})

describe('the mark of a placement', () => {
  const candidate = { lon: 2, lat: 2 } as PlacementOverlay['candidates'][number]
  const overlay = (change: Partial<PlacementOverlay>): PlacementOverlay => ({
    readingId: 1,
    raw: { lon: 1, lat: 1, sigmaM: 5 },
    candidates: [candidate],
    chosenIndex: null,
    onChoose: () => {},
    onDrag: () => {},
    ...change,
  })

  it('stands where a person put it, else at the chosen candidate, else at the raw position', () => {
    expect(markOf(overlay({ mark: { lon: 3, lat: 3 }, chosenIndex: 0 }))).toEqual({ lon: 3, lat: 3 })
    expect(markOf(overlay({ mark: null, chosenIndex: 0 }))).toBe(candidate)
    expect(markOf(overlay({}))).toMatchObject({ lon: 1, lat: 1 })
    expect(markOf(overlay({ raw: null }))).toBeNull()
  })
})

describe('the graticule', () => {
  it('takes finer round steps as one looks nearer', () => {
    const steps = [9, 11, 13, 15, 17].map(graticuleStepDeg)
    expect(steps).toEqual([0.5, 0.1, 0.02, 0.005, 0.002])
  })

  it('draws each parallel and meridian of the box once and names it', () => {
    const names = graticule([-114.95, 47.96, -114.75, 48.12], 0.1).map((f) => f.properties?.name as string)
    expect(names).toEqual(['48.0° N', '48.1° N', '114.9° W', '114.8° W'])
  })
})

describe('marks in a row', () => {
  it('stand evenly about their place', () => {
    expect([0, 1, 2].map((slot) => stepsAside({ slot, of: 3 })[0])).toEqual([-1, 0, 1])
    expect([0, 1].map((slot) => stepsAside({ slot, of: 2, across: 1 }))).toEqual([[0, -0.5], [0, 0.5]])
    expect(stepsAside({})).toEqual([0, 0])
  })
})
