import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import { shortDistanceM } from '@/lib/geo'
import { nearestPiece, snapToSpan } from '@/lib/geo/network/snap'
import { SpanSearch } from '@/lib/geo/network/search'
import { sketch, vertices } from '../../fixtures/geo/lines'
import { referenceAt, referenceDistanceM, referenceFoot } from '../../fixtures/geo/reference'

// Many cases on a machine that others share.
vi.setConfig({ testTimeout: 60_000 })

const LATITUDES = [0, 35, 52, 65]
const LONGITUDES = [10, 179.999]
const span = fc.record({
  lat: fc.constantFrom(...LATITUDES).chain((lat) => fc.double({ min: lat - 0.5, max: lat + 0.5, noNaN: true })),
  lon: fc.constantFrom(...LONGITUDES),
  azimuthDeg: fc.double({ min: 0, max: 360, noNaN: true }),
  lengthM: fc.double({ min: 20, max: 1_500, noNaN: true }),
})
/** Share of the span, a little past both ends too, and metres to the right. */
const position = fc.record({
  share: fc.double({ min: -0.1, max: 1.1, noNaN: true }),
  rightM: fc.double({ min: -120, max: 120, noNaN: true }),
})

describe('snapping against GeographicLib', () => {
  it('puts the foot within 10 mm of the geodesic foot and line distance within 1 ppm or 1 mm at 0, 35, 52, 65 and across 180', () => {
    fc.assert(
      fc.property(span, position, ({ lat, lon, azimuthDeg, lengthM }, { share, rightM }) => {
        const line = vertices(lon, lat, [azimuthDeg, lengthM])
        const network = sketch({ circuit: 'one', lonLat: line })
        const on = referenceAt(lon, lat, azimuthDeg, share * lengthM)
        const off = referenceAt(on.lon, on.lat, on.azimuthDeg + 90, rightM)
        const foot = snapToSpan(network, 0, off.lon, off.lat)
        const reference = referenceFoot(line as [number, number, number, number], off.lon, off.lat)
        expect(referenceDistanceM(foot.lon, foot.lat, reference.lon, reference.lat)).toBeLessThan(0.01)
        // The line distance of the foot itself, measured by the reference.
        const alongM = referenceDistanceM(lon, lat, foot.lon, foot.lat)
        expect(Math.abs(foot.lineDistanceM - alongM)).toBeLessThan(Math.max(alongM * 1e-6, 0.001))
        expect(Math.abs(Math.abs(foot.offsetM) - reference.distanceM)).toBeLessThan(0.01)
        expect(Math.abs(foot.lon)).toBeLessThanOrEqual(180)
      }),
      { numRuns: 600 },
    )
  })

  it('gives left of the way ahead a negative offset', () => {
    fc.assert(
      fc.property(
        span,
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        fc.double({ min: -100, max: 100, noNaN: true }),
        ({ lat, lon, azimuthDeg, lengthM }, share, rightM) => {
          fc.pre(Math.abs(rightM) > 0.1)
          const network = sketch({ circuit: 'one', lonLat: vertices(lon, lat, [azimuthDeg, lengthM]) })
          const on = referenceAt(lon, lat, azimuthDeg, share * lengthM)
          const off = referenceAt(on.lon, on.lat, on.azimuthDeg + 90, rightM)
          expect(snapToSpan(network, 0, off.lon, off.lat).offsetM).toBeCloseTo(rightM, 1)
        },
      ),
    )
  })
})

describe('the span index', () => {
  it('finds the nearest place of every section that a look at every piece finds', () => {
    const steps = fc.array(fc.tuple(fc.double({ min: -60, max: 60, noNaN: true }), fc.double({ min: 40, max: 700, noNaN: true })), {
      minLength: 1,
      maxLength: 12,
    })
    const lines = fc.array(fc.record({ azimuthDeg: fc.double({ min: 0, max: 360, noNaN: true }), steps }), { minLength: 1, maxLength: 5 })
    fc.assert(
      fc.property(
        fc.constantFrom(...LATITUDES),
        fc.constantFrom(...LONGITUDES),
        lines,
        position,
        (lat, lon, sketches, { share, rightM }) => {
          const network = sketch(
            ...sketches.map((one, i) => ({
              circuit: `c${i}`,
              lonLat: vertices(lon, lat, ...one.steps.map(([turnDeg, lengthM]) => [one.azimuthDeg + turnDeg, lengthM] as const)),
            })),
          )
          const at = referenceAt(lon, lat, sketches[0]!.azimuthDeg, share * 500)
          const point = referenceAt(at.lon, at.lat, at.azimuthDeg + 90, rightM)
          const search = new SpanSearch(network)
          const count = search.search(point.lon, point.lat, 120)
          const found = new Map(Array.from({ length: count }, (_, i) => [search.section[count - 1 - i]!, search.distanceM[count - 1 - i]!]))
          network.sections.forEach((_, section) => {
            let nearestM = Infinity
            for (let s = network.sectionSpan[section]!; s < network.sectionSpan[section + 1]!; s++) {
              const foot = snapToSpan(network, s, point.lon, point.lat, nearestPiece(network, s, point.lon, point.lat))
              nearestM = Math.min(nearestM, shortDistanceM(foot.lon, foot.lat, point.lon, point.lat))
            }
            if (nearestM < 119.9) expect(found.get(section)).toBeCloseTo(nearestM, 1)
            else if (nearestM > 120.1) expect(found.has(section)).toBe(false)
          })
        },
      ),
      { numRuns: 150 },
    )
  })
})
