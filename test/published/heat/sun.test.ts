import { describe, expect, it } from 'vitest'
import { conductivityWPerMK, densityKgPerM3, viscosityKgPerMS } from '@/lib/condition/heat/air'
import { exchangeOf, reynoldsNumber } from '@/lib/condition/heat/cooling'
import { incidenceDeg, sunAtSeaLevelWPerM2, sunElevationFactor, sunOnLineWPerM2, sunPosition } from '@/lib/condition/heat/sun'
import { equationOfTimeMin, solarTimeOf } from '@/lib/condition/heat/solar-time'
import { expectPrinted } from '../condition/printed'
import { numbersOf } from './figures'
import checks from './ieee738.json'

describe('the sun of the worked example (computed in full precision)', () => {
  const given = numbersOf(checks.drake_example.inputs)
  const printed = checks.drake_example.full_precision
  const position = sunPosition(given.lat, given.day, given.solar_hour)

  it('stands where the standard has it', () => {
    expectPrinted(position.declinationDeg, printed.delta)
    expectPrinted(position.altitudeDeg, printed.Hc)
    expectPrinted(position.azimuthDeg, printed.Zc)
    expectPrinted(incidenceDeg(position, given.Zl), printed.theta)
    expectPrinted(sunAtSeaLevelWPerM2(position.altitudeDeg, 'clear'), printed.Qs)
  })

  it('has the rounded figures of the standard, from memory: 74.8°, 114°, 76.1°, 1027 W/m²', () => {
    expectPrinted(position.altitudeDeg, '74.8')
    expectPrinted(position.azimuthDeg, '114')
    expectPrinted(sunAtSeaLevelWPerM2(position.altitudeDeg, 'clear'), '1027')
  })
})

// A second example of a public implementation's tests (verified).
describe('the sun at 40° north, day 161, noon, 61 m', () => {
  const { inputs, expected: printed } = checks.solar_second_example
  const given = numbersOf(inputs)
  const position = sunPosition(given.lat, given.day, given.solar_hour)

  it('stands south and shines as printed', () => {
    expectPrinted(position.declinationDeg, printed.delta)
    expectPrinted(position.altitudeDeg, printed.Hc)
    expectPrinted(position.azimuthDeg, printed.Zc)
    expectPrinted(incidenceDeg(position, given.Zl), printed.theta)
    expectPrinted(sunAtSeaLevelWPerM2(position.altitudeDeg, 'clear'), printed.Qs)
    expectPrinted(sunElevationFactor(given.He), printed.Ksolar)
    const line = { latitudeDeg: given.lat, dayOfYear: given.day, solarHour: given.solar_hour, lineAzimuthDeg: given.Zl, elevationM: given.He }
    expectPrinted(sunOnLineWPerM2({ ...line, atmosphere: 'clear' }), printed.Qse)
  })

  it('has air at 52.5 °C as printed', () => {
    expectPrinted(conductivityWPerMK(52.5), printed.k_f_52p5)
    expectPrinted(densityKgPerM3(52.5, given.He), printed.rho_f_52p5_61m)
    expectPrinted(viscosityKgPerMS(52.5), printed.mu_f_52p5)
  })

  // Parakeet, 0.914 in, in 0.61 m/s: the number printed beside it gives its diameter and wind.
  it('gives Parakeet the Reynolds number printed', () => {
    const parakeet = exchangeOf({ diameterM: 0.0232156, emissivity: 0.5, absorptivity: 0.5 },
      { ambientC: 40, windMS: 0.61, windAngleDeg: 90, sunWPerM2: 0, elevationM: given.He })
    expectPrinted(reynoldsNumber(parakeet, 65), printed.N_Re_parakeet)
  })
})

describe('intensity by altitude (computed from the polynomials of the standard)', () => {
  it.each(Object.entries(checks.clear_Qs_by_altitude.values))('clear air, %s°: %s W/m²', (altitudeDeg, printed) => {
    expectPrinted(sunAtSeaLevelWPerM2(Number(altitudeDeg), 'clear'), printed)
  })
  it.each(Object.entries(checks.industrial_Qs_by_altitude.values))('industrial air, %s°: %s W/m²', (altitudeDeg, printed) => {
    expectPrinted(sunAtSeaLevelWPerM2(Number(altitudeDeg), 'industrial'), printed)
  })
  it('night has none', () => {
    expect(sunAtSeaLevelWPerM2(0, 'industrial')).toBe(0)
    expect(sunAtSeaLevelWPerM2(-20, 'clear')).toBe(0)
  })
})

describe('solar time', () => {
  // J. Meeus, Astronomical Algorithms, example 28.b: 1992 October 13 at 0 h has +13 m 42.7 s by Smart's equation (from memory).
  it('is 13 min 42.7 s ahead on 1992 October 13', () => {
    expectPrinted(equationOfTimeMin(Date.UTC(1992, 9, 13)) * 60, '822.7')
  })

  // Four zeros and four extremes a year, common knowledge of almanacs (from memory), to the day and the minute.
  it.each([
    [1, 11, '-14'], [4, 14, '4'], [6, 26, '-6'], [10, 3, '16'],
  ])('month %i day %i is %s min at its extreme', (month, day, printed) => {
    expectPrinted(equationOfTimeMin(Date.UTC(2000, month, day)), printed)
  })

  it('runs four minutes a degree east, over midnight and new year too', () => {
    const noonUtc = Date.UTC(2025, 5, 10, 12)
    const atGreenwich = solarTimeOf(noonUtc, 0)
    expect(solarTimeOf(noonUtc, 15).solarHour - atGreenwich.solarHour).toBeCloseTo(1, 9)
    expect(atGreenwich.dayOfYear).toBe(161)
    expect(solarTimeOf(Date.UTC(2025, 11, 31, 23), 90).dayOfYear).toBe(1)
    expect(solarTimeOf(Date.UTC(2024, 11, 31, 12), 0).dayOfYear).toBe(366)
  })
})
