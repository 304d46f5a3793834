import { describe, expect, it } from 'vitest'
import { currentAtA, steadyTemperature, type Steady } from '@/lib/condition/heat/balance'
import { axialProfile, conductorAtC } from '@/lib/condition/heat/fins'
import { jointBody, jointTemperature, kFromTemperature } from '@/lib/condition/heat/joint'
import { ohmPerMAt } from '@/lib/condition/heat/line-resistance'
import { extraLossW, lossFactor, yearlyKWh } from '@/lib/condition/heat/losses'
import { effectiveWindMS, kByReferenceConductor } from '@/lib/condition/heat/reference-wind'
import type { HeatedCylinder, Weather } from '@/lib/condition/heat/weather'
import type { Result } from '@/lib/result/result'
import { expectPrinted } from '../condition/printed'
import still from './joint_still_air_test.json'
import checks from './joint_model.json'
import misc from './misc.json'

const value = <T>(found: Result<T, unknown>): T => {
  if (!found.ok) throw new Error(`refused: ${JSON.stringify(found.error)}`)
  return found.value
}
const degrees = (found: Result<Steady, unknown>): number => {
  const steady = value(found)
  if (steady.kind !== 'steady') throw new Error('no balance')
  return steady.temperatureC
}

const drake = (surface: number): HeatedCylinder => ({
  diameterM: 0.02814, emissivity: surface, absorptivity: surface,
  resistance: { lowC: 25, lowOhmPerM: 7.283e-5, highC: 75, highOhmPerM: 8.688e-5 },
})
const barrel = (surface: number) => ({ diameterM: Number(checks.Ds_m), emissivity: surface, absorptivity: surface })
const rating = (ambientC: number): Weather => ({ ambientC, windMS: 0.61, windAngleDeg: 90, sunWPerM2: 1000, elevationM: 0 })
const night = (windMS: number): Weather => ({ ambientC: 20, windMS, windAngleDeg: 90, sunWPerM2: 0, elevationM: 0 })

// Drake with a 47.6 mm barrel, surfaces 0.5, air 25 °C, 0.61 m/s, 1000 W/m². Status: computed with an independent reference.
describe('a splice at the rating current of its conductor', () => {
  it('which is 906.7756 A', () => {
    expectPrinted(value(currentAtA(drake(0.5), 75, rating(25))).currentA, checks.I_rating_75C)
  })

  it.each(checks.table)('with k $k comes to $T_joint_C °C and may carry $I_lim_93C_A A', (row) => {
    const k = Number(row.k)
    expectPrinted(degrees(jointTemperature(drake(0.5), barrel(0.5), k, Number(checks.I_rating_75C), rating(25))), row.T_joint_C)
    const body = jointBody(drake(0.5), barrel(0.5), k)
    expectPrinted(value(currentAtA(body, 93, rating(25), k)).currentA, row.I_lim_93C_A)
    expectPrinted(value(currentAtA(body, 93, rating(40), k)).currentA, row.I_lim_93C_40Camb_A)
  })
})

describe('the wind from the conductor (computed)', () => {
  const { reference_conductor_method: method } = checks
  const currentA = Number(method.I)

  it('stands at the printed temperatures', () => {
    expectPrinted(degrees(steadyTemperature(drake(0.7), currentA, night(0.5))), method.Tc)
    expectPrinted(degrees(jointTemperature(drake(0.7), barrel(0.7), 2, currentA, night(0.5))), method.Tj_k2)
  })

  it('finds the wind and k again', () => {
    const found = value(kByReferenceConductor(drake(0.7), barrel(0.7), Number(method.Tc), Number(method.Tj_k2), currentA, night(0)))
    expectPrinted(found.windMS, method.recovered_Veff)
    expectPrinted(found.k, method.k_with_recovered_wind)
    expectPrinted(found.windMS, '0.5000')
    expectPrinted(found.k, '2.0000')
  })

  it('would give k 3.287 for a wind wrongly taken as 1.5 m/s', () => {
    const k = value(kFromTemperature(drake(0.7), barrel(0.7), Number(method.Tj_k2), currentA, night(1.5)))
    expectPrinted(k, method.k_if_wind_wrongly_taken_1p5)
  })

  // One text says that no wind fits at or below the still-air temperature. It is the reverse: in wind the conductor lies below it.
  it('fits below the temperature of still air and not above it', () => {
    const stillAirC = degrees(steadyTemperature(drake(0.7), currentA, night(0)))
    expect(effectiveWindMS(drake(0.7), stillAirC - 1, currentA, night(0)).ok).toBe(true)
    const above = effectiveWindMS(drake(0.7), stillAirC + 1, currentA, night(0))
    expect(above).toEqual({ ok: false, error: { kind: 'hotter-than-still-air' } })
  })
})

describe('identities (exact)', () => {
  it('k 1 in a barrel of the conductor’s diameter is the conductor', () => {
    const currentA = value(currentAtA(drake(0.5), 75, rating(25))).currentA
    const splice = degrees(jointTemperature(drake(0.5), { ...barrel(0.5), diameterM: 0.02814 }, 1, currentA, rating(25)))
    expectPrinted(splice, checks.identities.k1_DsD.Tj)
    expect(splice).toBe(degrees(steadyTemperature(drake(0.5), currentA, rating(25))))
  })

  it('the limit falls with the root of k', () => {
    const limit = (k: number) => value(currentAtA(jointBody(drake(0.5), barrel(0.5), k), 93, rating(25), k)).currentA
    expectPrinted(limit(1) / limit(4), checks.identities.sqrt_k.expected)
    expect(limit(1) / limit(4)).toBeCloseTo(2, 12)
  })

  it('k 2.7 comes back as 2.7', () => {
    const spliceC = degrees(jointTemperature(drake(0.7), barrel(0.7), 2.7, 600, night(1)))
    const k = value(kFromTemperature(drake(0.7), barrel(0.7), spliceC, 600, night(1)))
    expectPrinted(k, checks.identities.roundtrip_k)
    expect(k).toBeCloseTo(2.7, 9)
  })
})

describe('heat along the line (computed)', () => {
  const { inputs, result } = checks.fin
  const along = {
    barrelLengthM: Number(inputs.L), barrelWMPerK: Number(inputs.kA_joint), conductorWMPerK: Number(inputs.kA_conductor),
  }
  const profile = value(axialProfile(drake(0.7), barrel(0.7), Number(inputs.k), along, Number(inputs.I), night(0.5)))

  it('cools the splice and warms the conductor beside it as printed', () => {
    expectPrinted(profile.spliceAloneC, result.T_inf_joint)
    expectPrinted(profile.conductorFarC, result.T_inf_cond)
    expectPrinted(profile.centreC, result.T_centre)
    expectPrinted(profile.mouthC, result.T_mouth)
    expectPrinted(profile.decayM, result.decay_m)
  })

  it.each(Object.entries(result.T_cond_at_m))('%s m from the mouth the conductor has %s °C', (fromMouthM, printed) => {
    expectPrinted(conductorAtC(profile, Number(fromMouthM)), printed)
  })
})

describe('losses', () => {
  const { loss } = checks

  it('are those of the example (computed)', () => {
    const peakW = extraLossW(drake(0.7).resistance, Number(loss.k), Number(loss.L), Number(loss.I), 50)
    expectPrinted(ohmPerMAt(drake(0.7).resistance, 50), loss.R50)
    expectPrinted(peakW, loss.P_W)
    const factor = lossFactor(Number(loss.load_factor), 0.3)
    expectPrinted(factor, loss.loss_factor)
    expectPrinted(yearlyKWh(peakW, factor), loss.kWh_per_year_peak600)
  })

  it('follow the load as two public pages have it (verified)', () => {
    const { c_030: c030, c_015: c015 } = misc.loss_factor
    expectPrinted(lossFactor(0.5, 0.3), c030.LF_0p5)
    expectPrinted(lossFactor(0.65, 0.3), c030.LF_0p65)
    expectPrinted(lossFactor(0.65, 0.3), '0.490')
    expectPrinted(lossFactor(0.5, 0.15), c015.LF_0p5)
  })

  it('of a splice better than its conductor are none', () => {
    expect(extraLossW(drake(0.7).resistance, 0.6, 0.7, 600, 50)).toBe(0)
  })
})

// A utility's laboratory: Drake, 20 °C, no wind, 1070 A: conductor 90 K over air, splice 60 K (verified, public slides of 2009).
// Emissivity and barrel of the test are not published; the figures by emissivity are computed.
describe('the published laboratory test in still air', () => {
  it.each(still.model)('with emissivity $eps has the conductor $conductor_rise_K K over air and k $k_for_joint_rise_60', (row) => {
    const surface = Number(row.eps)
    expectPrinted(degrees(steadyTemperature(drake(surface), 1070, night(0))) - 20, row.conductor_rise_K)
    expectPrinted(value(kFromTemperature(drake(surface), barrel(surface), 80, 1070, night(0))), row.k_for_joint_rise_60)
  })

  it('is met: 90 K and 60 K with a splice of k 1 at an emissivity of 0.56', () => {
    expectPrinted(degrees(steadyTemperature(drake(0.56), 1070, night(0))) - 20, still.published.conductor_rise_K)
    const k = value(kFromTemperature(drake(0.56), barrel(0.56), 20 + Number(still.published.joint_rise_K), 1070, night(0)))
    expectPrinted(k, '1.0')
  })
})
