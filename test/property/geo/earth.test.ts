import fc from 'fast-check'
import { describe, expect, it, vi } from 'vitest'
import { geodesicLengthM, lineDistances, offsetLine, unwrapLon, wrapLon } from '@/lib/geo'
import { vincentyDirect, vincentyInverse } from '@/lib/geo/earth/vincenty'
import { referenceAt, referenceDistanceM } from '../../fixtures/geo/reference'

// Many cases on a machine that others share.
vi.setConfig({ testTimeout: 60_000 })

const LATITUDES = [0, 35, 52, 65, -35, -65]
const place = fc.record({
  lat: fc.constantFrom(...LATITUDES).chain((lat) => fc.double({ min: lat - 1, max: lat + 1, noNaN: true })),
  // Half of all lines lie about the 180th meridian.
  lon: fc.oneof(fc.double({ min: -180, max: 180, noNaN: true }), fc.double({ min: 179.95, max: 180, noNaN: true })),
  azimuthDeg: fc.double({ min: 0, max: 360, noNaN: true }),
})

/** 1 ppm, or 1 mm where that is more. */
const allowedM = (lengthM: number): number => Math.max(lengthM * 1e-6, 0.001)

describe('lengths on WGS84 against GeographicLib', () => {
  it('of span-sized pieces stay within 1 ppm or 1 mm at 0, 35, 52 and 65 degrees and across 180', () => {
    fc.assert(
      fc.property(place, fc.double({ min: 0.5, max: 3_000, noNaN: true }), ({ lon, lat, azimuthDeg }, lengthM) => {
        const end = referenceAt(lon, lat, azimuthDeg, lengthM)
        expect(Math.abs(geodesicLengthM(lon, lat, end.lon, end.lat)! - lengthM)).toBeLessThan(allowedM(lengthM))
      }),
      { numRuns: 2_000 },
    )
  })

  it('of long pieces stay within 1 mm', () => {
    fc.assert(
      fc.property(place, fc.double({ min: 3_000, max: 1e6, noNaN: true }), ({ lon, lat, azimuthDeg }, lengthM) => {
        const end = referenceAt(lon, lat, azimuthDeg, lengthM)
        expect(Math.abs(geodesicLengthM(lon, lat, end.lon, end.lat)! - lengthM)).toBeLessThan(0.001)
      }),
      { numRuns: 500 },
    )
  })

  it('summed along a line stay within 1 ppm or 1 mm', () => {
    fc.assert(
      fc.property(
        place,
        fc.array(fc.tuple(fc.double({ min: -40, max: 40, noNaN: true }), fc.double({ min: 30, max: 900, noNaN: true })), {
          minLength: 2,
          maxLength: 60,
        }),
        ({ lon, lat, azimuthDeg }, steps) => {
          const flat = [lon, lat]
          for (const [turnDeg, lengthM] of steps) {
            const next = referenceAt(flat.at(-2)!, flat.at(-1)!, azimuthDeg + turnDeg, lengthM)
            flat.push(wrapLon(next.lon), next.lat)
          }
          const totalM = steps.reduce((sum, [, lengthM]) => sum + lengthM, 0)
          expect(Math.abs(lineDistances(flat).at(-1)! - totalM)).toBeLessThan(allowedM(totalM))
        },
      ),
      { numRuns: 200 },
    )
  })

  it('the direct formula comes out where the inverse one started', () => {
    fc.assert(
      fc.property(place, fc.double({ min: 1, max: 1e6, noNaN: true }), ({ lon, lat, azimuthDeg }, lengthM) => {
        const end = referenceAt(lon, lat, azimuthDeg, lengthM)
        const line = vincentyInverse(lon, lat, end.lon, end.lat)!
        const [lon2, lat2] = vincentyDirect(lon, lat, line.azimuthRad, line.distanceM)
        expect(referenceDistanceM(lon2, lat2, end.lon, end.lat)).toBeLessThan(0.001)
      }),
      { numRuns: 500 },
    )
  })

  it('any two points give a length or nothing, and always an end', () => {
    const any = fc.tuple(fc.double({ min: -180, max: 180, noNaN: true }), fc.double({ min: -90, max: 90, noNaN: true }))
    fc.assert(
      fc.property(any, any, ([lon1, lat1], [lon2, lat2]) => {
        const lengthM = geodesicLengthM(lon1, lat1, lon2, lat2)
        if (lengthM !== undefined) expect(Math.abs(lengthM - referenceDistanceM(lon1, lat1, lon2, lat2))).toBeLessThan(0.01)
      }),
      { numRuns: 2_000 },
    )
  })
})

describe('longitudes', () => {
  it('wrap into −180 … 180 and unwrap to within half a turn of a neighbour', () => {
    fc.assert(
      fc.property(fc.double({ min: -720, max: 720, noNaN: true }), fc.double({ min: -180, max: 180, noNaN: true }), (lon, near) => {
        const wrapped = wrapLon(lon)
        expect(Math.abs(wrapped)).toBeLessThanOrEqual(180)
        const turns = (wrapped - lon) / 360
        expect(Math.abs(turns - Math.round(turns))).toBeLessThan(1e-9)
        expect(Math.abs(unwrapLon(wrapped, near) - near)).toBeLessThanOrEqual(180)
      }),
    )
  })
})

describe('an offset conductor', () => {
  it('runs at its offset beside a straight line, on the right for positive', () => {
    const offsets = fc.double({ min: -40, max: 40, noNaN: true })
    fc.assert(
      fc.property(place, offsets, fc.double({ min: 50, max: 500, noNaN: true }), ({ lon, lat, azimuthDeg }, offsetM, lengthM) => {
        const end = referenceAt(lon, lat, azimuthDeg, lengthM)
        const moved = offsetLine(Float64Array.of(lon, lat, end.lon, end.lat), offsetM)
        const start = referenceAt(lon, lat, azimuthDeg + 90, offsetM)
        const stop = referenceAt(end.lon, end.lat, end.azimuthDeg + 90, offsetM)
        expect(referenceDistanceM(moved[0]!, moved[1]!, start.lon, start.lat)).toBeLessThan(0.01)
        expect(referenceDistanceM(moved[2]!, moved[3]!, stop.lon, stop.lat)).toBeLessThan(0.01)
      }),
    )
  })
})
