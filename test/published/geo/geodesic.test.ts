import { describe, expect, it } from 'vitest'
import { geodesicLengthM } from '@/lib/geo'
import { vincentyInverse } from '@/lib/geo/earth/vincenty'

/**
 * Test geodesics of GeographicLib (geodtest, as carried by the gtsam Python tests); status verified.
 * Latitude and longitude of both ends, degrees; length, metres.
 */
const GEODTEST = [
  [35.60777, -139.44815, -11.17491, -69.95921, 8935244.56048183],
  [55.52454, 106.05087, 77.03196, 197.18234, 4105086.171392441],
  [-21.97856, 142.59065, 41.84138, 98.56635, 8394328.894657671],
  [-66.99028, 112.2363, -12.70631, 285.90344, 11150344.231208025],
  [-17.42761, 173.34268, -15.84784, 5.93557, 16076603.163118068],
  [-50.56724, -16.30485, -33.56571, -94.97412, 6455670.511866869],
  [-41.22777, 122.32875, -7.57291, 130.37946, 3812686.035106021],
] as const

/** Flinders Peak to Buninyong, worked in the Geocentric Datum of Australia manual and in many Vincenty examples; length verified. */
const FLINDERS_PEAK = { lon: 144 + 25 / 60 + 29.5244 / 3600, lat: -(37 + 57 / 60 + 3.7203 / 3600) }
const BUNINYONG = { lon: 143 + 55 / 60 + 35.3839 / 3600, lat: -(37 + 39 / 60 + 10.1561 / 3600) }

/** A great-circle step of 300 m on a sphere of 6,371,008.8 m reads 300.22672 m there; lengths on WGS84, status computed. */
const SHORT = [
  [0, 'north', 298.55054],
  [0, 'east', 300.56263],
  [30, 'north', 299.30166],
  [30, 'east', 300.81445],
  [45, 'north', 300.05587],
  [45, 'east', 301.06691],
  [60, 'north', 300.81324],
  [60, 'east', 301.32001],
] as const
const STEP_DEG = 0.0027

describe('geodesics', () => {
  it.each(GEODTEST)('from (%f, %f) to (%f, %f) is %f m, within 1 mm', (lat1, lon1, lat2, lon2, lengthM) => {
    expect(Math.abs(vincentyInverse(lon1, lat1, lon2, lat2)!.distanceM - lengthM)).toBeLessThan(0.001)
    expect(Math.abs(geodesicLengthM(lon1, lat1, lon2, lat2)! - lengthM)).toBeLessThan(0.001)
  })

  it('from Flinders Peak to Buninyong is 54,972.271 m', () => {
    expect(geodesicLengthM(FLINDERS_PEAK.lon, FLINDERS_PEAK.lat, BUNINYONG.lon, BUNINYONG.lat)).toBeCloseTo(54_972.271, 3)
  })

  it.each(SHORT)('at latitude %i a step %s is %f m on the ellipsoid', (lat, way, lengthM) => {
    const eastDeg = way === 'east' ? STEP_DEG / Math.cos((lat * Math.PI) / 180) : 0
    const northDeg = way === 'north' ? STEP_DEG : 0
    expect(geodesicLengthM(10, lat, 10 + eastDeg, lat + northDeg)).toBeCloseTo(lengthM, 4)
  })

  it('says nothing near antipodes instead of looping', () => {
    expect(vincentyInverse(0, 0, 179.7, 0.5)).toBeUndefined()
    expect(geodesicLengthM(0, 0, 180, 0)).toBeUndefined()
  })
})
