import { describe, expect, it } from 'vitest'
import { detectabilityOf } from '@/lib/condition/detectability'
import { defaultPolicy } from '@/lib/condition'
import { steadyTemperature } from '@/lib/condition/heat/balance'
import { jointTemperature } from '@/lib/condition/heat/joint'
import { ohmPerMAt, ohmPerMK } from '@/lib/condition/heat/line-resistance'
import { infraredKOf } from '@/lib/condition/infrared-error'
import type { Picture } from '@/lib/condition/infrared-picture'
import { expectPrinted } from '../condition/printed'
import joint from './joint_model.json'
import misc from './misc.json'

/** Drake, 47.6 mm barrel, surfaces 0.7, night, air 20 °C. Status of every figure: computed with an independent reference. */
const SURFACE = { emissivity: 0.7, absorptivity: 0.7 }
const DRAKE = { ...SURFACE, diameterM: 0.02814, resistance: { lowC: 25, lowOhmPerM: 7.283e-5, highC: 75, highOhmPerM: 8.688e-5 } }
const BARREL = { ...SURFACE, diameterM: 0.0476 }
const CALM = { ambientC: 20, sunWPerM2: 0, elevationM: 0 }
const NO_ERRORS = { temperatureK: 0, differenceK: 0, currentShare: 0, windShare: 0, barrelShare: 0, emissivity: 0, sunWPerM2: 0 }

const degrees = (found: ReturnType<typeof steadyTemperature>): number => {
  if (!found.ok || found.value.kind !== 'steady') throw new Error('no balance')
  return found.value.temperatureC
}

const picture = (windMS: number, currentA: number, k: number, errors: Partial<Picture['errors']> = {}): Picture => {
  const weather = { ...CALM, windMS, windAngleDeg: 90 }
  return {
    conductor: DRAKE, barrel: BARREL, currentA, calm: CALM, along: null, shown: null, errors: { ...NO_ERRORS, ...errors },
    conductorC: degrees(steadyTemperature(DRAKE, currentA, weather)), spliceC: degrees(jointTemperature(DRAKE, BARREL, k, currentA, weather)),
  }
}

describe('k by infrared', () => {
  it('is that of the reference-conductor check', () => {
    const { reference_conductor_method: method } = joint
    const found = infraredKOf({ ...picture(0.5, Number(method.I), 2), conductorC: Number(method.Tc), spliceC: Number(method.Tj_k2) })
    if (!found.ok) throw new Error(found.error)
    expectPrinted(found.value.k, '2.0000')
    expectPrinted(found.value.windMS, '0.5000')
    expect(found.value.windFrom).toBe('conductor')
    expect(found.value.uLnK).toBe(0)
  })
})

describe('the error of ln k by a kelvin of the splice alone', () => {
  it.each(misc.ir_sensitivity.rows)('in $V m/s at $load of full load', (row) => {
    const found = infraredKOf(picture(Number(row.V), Number(row.load) * 906.7756, 2, { differenceK: 1e-3 }))
    if (!found.ok) throw new Error(found.error)
    // The printed figure leaves out that the resistance rises with temperature too, which k loses.
    const { spliceC } = picture(Number(row.V), Number(row.load) * 906.7756, 2)
    expectPrinted(found.value.parts.difference / 1e-3 + ohmPerMK(DRAKE.resistance) / ohmPerMAt(DRAKE.resistance, spliceC), row.u_lnk_for_1K)
  })
})

describe('what a splice of k 2 would have shown', () => {
  it.each(misc.ir_sensitivity.rows)('in $V m/s at $load of full load is $dT_k2 K, and it takes 3', (row) => {
    const found = detectabilityOf(picture(Number(row.V), Number(row.load) * 906.7756, 1, { differenceK: 1, temperatureK: 2 }), false, defaultPolicy)
    expectPrinted(found?.shownK ?? NaN, row.dT_k2)
    expect(found?.neededK).toBe(3)
    expect(found?.detectable).toBe(Number(row.dT_k2) >= 3)
  })
})

describe('the error of ln k in a measured wind', () => {
  // Working form of the trade: twice the error of the current, and 0.55 of that of the wind (common practice, no source).
  it('is twice the relative error of the current and about 0.55 of that of the wind', () => {
    const windy: Picture = { ...picture(1, 600, 2, { currentShare: 0.01, windShare: 0.01 }), conductorC: undefined, windMS: 1 }
    const found = infraredKOf(windy)
    if (!found.ok) throw new Error(found.error)
    expectPrinted(found.value.parts.current, '0.0200')
    expectPrinted(found.value.parts.wind / 0.01, '0.5')
    expect(found.value.windFrom).toBe('measured')
    expect(found.value.uLnK).toBeCloseTo(Math.hypot(found.value.parts.current, found.value.parts.wind), 12)
  })
})

/** Drake, 47.6 mm barrel of 0.66 m, k 3, 544.07 A, 0.5 m/s: the fins show 46.122 °C in the middle where the splice alone would have 50.642. Computed. */
describe('k by infrared with heat along the line', () => {
  const { inputs, result } = joint.fin
  const along = { barrelLengthM: Number(inputs.L), barrelWMPerK: Number(inputs.kA_joint), conductorWMPerK: Number(inputs.kA_conductor) }
  const short: Picture = { ...picture(0.5, Number(inputs.I), Number(inputs.k)), spliceC: Number(result.T_centre) }
  const told = (one: Picture) => {
    const found = infraredKOf(one)
    if (!found.ok) throw new Error(found.error)
    return found.value
  }

  it('is the 3 that heated the middle of the barrel; without it the short hot splice reads low by a seventh', () => {
    const { k, uLnK, alongFactor } = told({ ...short, along })
    expectPrinted(k, '3.00')
    expectPrinted(told(short).k * alongFactor, '3.00')
    expect(told(short).k).toBeLessThan(2.6)
    expect(told(short)).toMatchObject({ alongFactor: 1, uLnK: 0 })
    // Every other error is 0 here: half of what the fins change is what is not known of them.
    expect(uLnK).toBeCloseTo(Math.log(alongFactor) / 2, 12)
  })

  it('shows less of a bad splice, so a picture proves health later', () => {
    const shown = (one: Picture) => detectabilityOf({ ...one, errors: { ...NO_ERRORS, differenceK: 1 } }, false, defaultPolicy)?.shownK ?? NaN
    expect(shown({ ...short, along })).toBeLessThan(shown(short) - 1)
    expect(shown({ ...short, along })).toBeGreaterThan(0)
  })
})
