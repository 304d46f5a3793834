import geographic from 'geographiclib-geodesic'
import { describe, expect, it } from 'vitest'
import { stepToLine } from '@/components/map/drawn-on-line'
import { drawnAside, laneAsidePx } from '@/components/map/style/lanes'
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

describe('marks drawn beside their place', () => {
  it('stand where their line is drawn, and in even steps where several share a place', () => {
    expect(drawnAside({}, 14)).toEqual([0, 0])
    const lane = 0.5
    expect(drawnAside({ lane_x: lane }, 14.9)).toEqual([laneAsidePx(lane, 14), 0])
    const [first = 0, second = 0, third = 0] = [-1, 0, 1].map((step) => drawnAside({ step_y: step }, 17)[1])
    expect(second - first).toBeGreaterThan(16)
    expect(third - second).toBe(second - first)
  })
})

describe('a candidate beside a drawn line', () => {
  it('is moved to the nearest place on it and to the right of its way', () => {
    const line = [{ x: 0, y: 0 }, { x: 100, y: 0 }, { x: 100, y: 0 }, { x: 100, y: 100 }]
    // Screens count downwards: on the way to the right of the screen, the right hand is below.
    expect(stepToLine({ x: 40, y: -3 }, line, 5)).toEqual({ x: 0, y: 8 })
    expect(stepToLine({ x: 102, y: 60 }, line, -5)).toEqual({ x: 3, y: 0 })
    expect(stepToLine({ x: 0, y: 0 }, [{ x: 1, y: 1 }], 5)).toBeNull()
  })
})
