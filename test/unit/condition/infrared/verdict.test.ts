import { describe, expect, it } from 'vitest'
import { defaultPolicy, type InfraredEvidence, type SpliceFacts } from '@/lib/condition'
import { alongLineOf, bodiesOf } from '@/lib/condition/body-of-splice'
import { contextFor } from '@/lib/condition/context'
import { steadyTemperature } from '@/lib/condition/heat/balance'
import { jointTemperature } from '@/lib/condition/heat/joint'
import { infraredVerdict } from '@/lib/condition/infrared-k'
import { flightVerdict, sunOfSky } from '@/lib/condition/loading/flight'

const FACTS: SpliceFacts = { kind: 'full-tension splice', subconductors: 1, conductorCode: 'Drake', barrelOdMm: 47.6, ratingA: 907 }
const context = contextFor(FACTS, defaultPolicy)
const bodies = bodiesOf(context, 0.7, 0.7)
if (!bodies) throw new Error('Drake is missing')

const degrees = (found: ReturnType<typeof steadyTemperature>): number => {
  if (!found.ok || found.value.kind !== 'steady') throw new Error('no balance')
  return found.value.temperatureC
}

/** A picture at night, as a splice of this k would give it. */
function taken(k: number, currentA: number, windMS: number, over: Partial<InfraredEvidence> = {}, sunWPerM2 = 0): InfraredEvidence {
  const weather = { ambientC: 20, windMS, windAngleDeg: 90, sunWPerM2, elevationM: 0 }
  return {
    source: 'infrared', readingId: 1, afterRepair: false, emissivity: 0.7, ambientC: 20, current30minA: currentA, sun: 'none', referenceKind: 'own-conductor',
    conductorTempC: degrees(steadyTemperature(bodies!.conductor, currentA, weather)),
    spliceTempC: degrees(jointTemperature(bodies!.conductor, bodies!.barrel, k, currentA, weather)), ...over,
  }
}

describe('a picture by the heat balance', () => {
  it('at good load tells k and is conclusive', () => {
    const verdict = infraredVerdict(taken(2.4, 700, 1), context)
    expect(verdict.causes).toEqual([])
    expect(verdict.measured?.k).toBeCloseTo(2.4, 6)
    expect(verdict.measured?.windMS).toBeCloseTo(1, 6)
    expect(verdict.measured?.uLnK).toBeGreaterThan(0.05)
    expect(verdict.measured?.uLnK).toBeLessThan(0.35)
    expect(verdict.detectability?.detectable).toBe(true)
  })

  it('at low load proves nothing, although the fixed rule of load would let it pass', () => {
    const verdict = infraredVerdict(taken(0.7, 370, 1), context)
    expect(370 / 907).toBeGreaterThan(0.4)
    expect(verdict.causes).toEqual(['not-detectable'])
    expect(verdict.detectability?.shownK).toBeLessThan(3)
  })

  it('under 40 % of a generous rating is conclusive all the same: the fixed rule of load stands back', () => {
    const generous = contextFor({ ...FACTS, ratingA: 1200 }, defaultPolicy)
    const verdict = infraredVerdict(taken(2, 450, 0.5), generous)
    expect(450 / 1200).toBeLessThan(0.4)
    expect(verdict.causes).toEqual([])
    expect(verdict.measured?.k).toBeCloseTo(2, 6)
  })

  it('without a conductor of the table falls back on the fixed rules and tells no k', () => {
    const unknown = contextFor({ ...FACTS, conductorCode: undefined }, defaultPolicy)
    expect(infraredVerdict(taken(2, 350, 1), unknown)).toEqual({ causes: ['low-load'], measured: null, surface: null, detectability: null })
    expect(infraredVerdict(taken(2, 700, 1), unknown)).toEqual({ causes: [], measured: null, surface: null, detectability: null })
  })

  it('keeps the other rules: wind, rain, angle, new metal, a changed load', () => {
    const bad = taken(2, 900, 1, { windMS: 5, rain1h: true, viewAngleDeg: 70, afterRepair: true, lineCurrentA: 600 })
    expect(infraredVerdict(bad, context).causes).toEqual(['load-changed', 'wind', 'new-metal', 'rain', 'angle'])
  })

  it('takes a measured wind where the conductor was not read, with more doubt, and asks twice the difference', () => {
    const beside = infraredVerdict(taken(2, 700, 1), context)
    const alone = infraredVerdict(taken(2, 700, 1, { conductorTempC: undefined, referenceKind: 'air', windMS: 1 }), context)
    expect(alone.measured?.k).toBeCloseTo(2, 6)
    expect(alone.measured?.windFrom).toBe('measured')
    expect(alone.measured?.uLnK ?? 0).toBeGreaterThan(beside.measured?.uLnK ?? Infinity)
    expect(alone.detectability?.neededK).toBe(6)
    expect(infraredVerdict(taken(2, 700, 1, { conductorTempC: undefined }), context).causes).toContain('conductor-temperature-and-wind-missing')
  })

  it('does not take the temperature of another fitting for its conductor’s', () => {
    const verdict = infraredVerdict(taken(2, 700, 1, { referenceKind: 'same-fitting', windMS: 1 }), context)
    expect(verdict.measured?.windFrom).toBe('measured')
  })

  it('doubts a current of the moment more than a mean', () => {
    const mean = infraredVerdict(taken(2, 700, 1), context)
    const moment = infraredVerdict(taken(2, 700, 1, { current30minA: undefined, lineCurrentA: 700 }), context)
    expect(moment.measured?.parts.current ?? 0).toBeGreaterThan(2 * (mean.measured?.parts.current ?? Infinity))
  })

  it('says so where the temperatures do not go with the current', () => {
    const hot = taken(2, 300, 0)
    expect(infraredVerdict({ ...hot, conductorTempC: (hot.conductorTempC ?? 0) + 12, spliceTempC: 70 }, context).causes).toContain('conductor-hotter-than-current')
    expect(infraredVerdict(taken(2, 900, 1, { conductorTempC: 21 }), context).causes).toContain('conductor-colder-than-current')
    expect(infraredVerdict(taken(2, 700, 1, { conductorTempC: 19 }), context).causes).toContain('low-conductor-rise')
    expect(infraredVerdict(taken(2, 700, 1, { spliceTempC: 19 }), context).causes).toContain('splice-colder-than-model')
    expect(infraredVerdict(taken(2, 700, 1, { current30minA: 30_000 }), context).causes).toContain('out-of-range')
  })

  it('shares the current among subconductors', () => {
    const pair = contextFor({ ...FACTS, subconductors: 2, ratingA: 1814 }, defaultPolicy)
    expect(infraredVerdict(taken(2, 700, 1, { current30minA: 1400 }), pair).measured?.k).toBeCloseTo(2, 6)
  })
})

describe('the sun', () => {
  const place = { latitudeDeg: 40, longitudeDeg: -105, lineAzimuthDeg: 90, elevationM: 0 }

  it('is reckoned from place and hour, and k comes out right', () => {
    // Noon by the sun on a June day at 105° west is 19:00 UTC, give or take a minute.
    const takenAtMs = Date.UTC(2025, 5, 10, 19)
    const sunny = taken(2, 800, 0.6, { sun: 'direct', takenAtMs }, 1025)
    expect(infraredVerdict(sunny, context, place).measured?.k).toBeCloseTo(2, 2)
    expect(infraredVerdict(sunny, context, place).causes).toEqual([])
  })

  it('widens the error where nobody noted it, by day and not by night', () => {
    const u = (takenAtMs: number) => infraredVerdict(taken(2, 800, 0.6, { sun: undefined, takenAtMs }), context, place).measured?.parts.sun
    expect(u(Date.UTC(2025, 5, 10, 19))).toBeGreaterThan(0.01)
    expect(u(Date.UTC(2025, 5, 10, 7))).toBe(0)
    expect(infraredVerdict(taken(2, 800, 0.6, { sun: undefined }), context).measured?.parts.sun).toBeGreaterThan(0.01)
  })

  it('makes a small rise inconclusive', () => {
    expect(infraredVerdict(taken(2, 500, 3, { sun: 'direct' }, 900), context).causes).toContain('sun')
  })

  // IEEE Std 738 balance without load in 0.61 m/s and full sun: the conductor 11.3 K and its barrel 13.6 K over the air (computed independently).
  it('is no signal of a bad splice after a flight either: at little load its own heat counts, not the 2 K that the sun gives any barrel', () => {
    const sunny = infraredVerdict(taken(1, 200, 0.61, { sun: 'direct' }, 900), context).detectability
    const night = infraredVerdict(taken(1, 200, 0.61), context).detectability
    expect(sunny?.shownK).toBeLessThan((night?.shownK ?? 0) + 1e-6)
    expect(sunny?.shownK).toBeGreaterThan(0)
    expect(sunny?.neededK).toBeGreaterThan(3.4)
    expect(night?.neededK).toBe(3)
  })

  it('asks of a picture taken what it asks of the same flight before it', () => {
    const camera = { netdK: 0, ifovMrad: 0.3 }
    for (const currentA of [300, 450, 600, 750]) {
      for (const sun of ['none', 'diffuse', 'direct'] as const) {
        const sunWPerM2 = sunOfSky(sun, defaultPolicy)
        const after = infraredVerdict(taken(1, currentA, 1, { sun }, sunWPerM2), context).detectability
        const before = flightVerdict(
          { bodies: [defaultPolicy.radiometry.heatAlongLine ? { ...bodies, along: alongLineOf(context, bodies) } : bodies], subconductors: 1, ratingA: 907 }, currentA, { ambientC: 20, windMS: 1, sky: sun }, camera, defaultPolicy,
        )
        if (!before.ok || !after) throw new Error('no verdict')
        expect(after.shownK).toBeCloseTo(before.value.shownK, 3)
        expect(after.neededK).toBeCloseTo(before.value.neededK, 3)
      }
    }
  })

  it('counts against a splice alone, of which one only knows what that sun should make of a good one, and not beside another fitting', () => {
    const alone = (sun: 'none' | 'direct', referenceKind: 'air' | 'same-fitting') =>
      infraredVerdict(taken(2, 700, 1, { conductorTempC: undefined, referenceKind, windMS: 1, sun }, sun === 'none' ? 0 : 900), context).detectability
    expect(alone('direct', 'air')?.neededK).toBeGreaterThan(alone('none', 'air')?.neededK ?? Infinity)
    expect(alone('direct', 'same-fitting')?.neededK).toBe(alone('none', 'same-fitting')?.neededK)
  })
})

describe('the emissivity a ratio rests on', () => {
  it('is the policy’s and not the camera’s, and what another would give is what the engine says with that one as policy', () => {
    const at = (one: InfraredEvidence, emissivity: number) =>
      infraredVerdict(one, contextFor(FACTS, { ...defaultPolicy, radiometry: { ...defaultPolicy.radiometry, emissivity } })).measured?.k ?? NaN
    for (const emissivity of [0.6, undefined]) {
      const one = taken(2, 700, 3, { emissivity, reflectedC: 18, band: 'lw' })
      const { measured, surface } = infraredVerdict(one, context)
      expect(surface?.kIfBright).toBeCloseTo(at(one, 0.3), 12)
      expect(surface?.kIfWeathered).toBeCloseTo(at(one, 0.9), 12)
      expect(at(one, 0.7)).toBeCloseTo(measured?.k ?? NaN, 12)
    }
  })

  // Without a conductor to show the wind, k = (qc + qr − qs) / I²R of IEEE Std 738, qr = 17.8 D ε (…): by night k is straight in ε.
  it('alone by night moves the ratio by what it radiates', () => {
    const one = taken(2, 700, 1, { conductorTempC: undefined, referenceKind: 'air', windMS: 1, emissivity: undefined })
    const plain = contextFor(FACTS, { ...defaultPolicy, radiometry: { ...defaultPolicy.radiometry, heatAlongLine: false } })
    const { surface } = infraredVerdict(one, plain)
    const kelvin4 = (celsius: number) => ((celsius + 273) / 100) ** 4
    const { lowC, lowOhmPerM, highC, highOhmPerM } = bodies.conductor.resistance
    const spliceC = one.spliceTempC ?? NaN
    const ohmPerM = lowOhmPerM + ((highOhmPerM - lowOhmPerM) * (spliceC - lowC)) / (highC - lowC)
    const perUnit = (17.8 * 0.0476 * (kelvin4(spliceC) - kelvin4(20))) / (700 ** 2 * ohmPerM)
    expect((surface?.kIfWeathered ?? NaN) - (surface?.kIfBright ?? NaN)).toBeCloseTo(0.6 * perUnit, 9)
  })
})
