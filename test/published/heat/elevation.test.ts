import { describe, expect, it } from 'vitest'
import { defaultPolicy, policySchema, type InfraredEvidence, type SpliceFacts } from '@/lib/condition'
import { contextFor } from '@/lib/condition/context'
import { currentLimit, limitFactsOf } from '@/lib/condition/current-limit'
import { computedEdgesFor } from '@/lib/condition/edges-computed'
import { infraredVerdict } from '@/lib/condition/infrared-k'
import { pictureOf } from '@/lib/condition/infrared-picture'
import { flightVerdict } from '@/lib/condition/loading/flight'
import { heatedWith } from '@/lib/condition/loading/line-joint'
import { limitInWeather } from '@/lib/condition/loading/line-limit'
import { ratingWeatherOf } from '@/lib/condition/rating-weather'

const FACTS: SpliceFacts = { kind: 'full-tension splice', subconductors: 1, conductorCode: 'Drake', barrelOdMm: 47.6 }
const HEIGHTS_M = [0, 800, 2000, 3500]
const at = (elevationM: number | undefined) => contextFor({ ...FACTS, elevationM }, defaultPolicy)
const settingAt = (elevationM: number) => ({ ...policySchema.parse({ ratingWeather: { elevationM } }), version: 0 })

/** IEEE Std 738-2012 written out once more: heat that the air takes from a barrel across a wind, W/m. */
function convectedWPerM(diameterM: number, surfaceC: number, airC: number, windMS: number, elevationM: number): number {
  const filmC = (surfaceC + airC) / 2
  const density = (1.293 - 1.525e-4 * elevationM + 6.379e-9 * elevationM ** 2) / (1 + 0.00367 * filmC)
  const viscosity = (1.458e-6 * (filmC + 273) ** 1.5) / (filmC + 383.4)
  const conductivity = 2.424e-2 + 7.477e-5 * filmC - 4.407e-9 * filmC ** 2
  const reynolds = (diameterM * density * windMS) / viscosity
  const riseK = surfaceC - airC
  return Math.max(
    (1.01 + 1.35 * reynolds ** 0.52) * conductivity * riseK, 0.754 * reynolds ** 0.6 * conductivity * riseK,
    3.645 * density ** 0.5 * diameterM ** 0.75 * riseK ** 1.25,
  )
}

const limitAt = (elevationM: number | undefined) => {
  const facts = limitFactsOf(at(elevationM))
  const found = facts.ok ? currentLimit(facts.value, 2, defaultPolicy) : facts
  if (!found.ok) throw new Error(JSON.stringify(found.error))
  return found.value
}

describe('what a splice may carry at the elevation of its section', () => {
  it.each(HEIGHTS_M)('in the air of %s m is what the balance of the standard gives', (elevationM) => {
    const { ambientC, windMS, sunWPerM2, emissivity, absorptivity } = defaultPolicy.ratingWeather
    const [diameterM, surfaceC] = [0.0476, 93]
    const radiated = 17.8 * diameterM * emissivity * (((surfaceC + 273) / 100) ** 4 - ((ambientC + 273) / 100) ** 4)
    const net = convectedWPerM(diameterM, surfaceC, ambientC, windMS, elevationM) + radiated - absorptivity * sunWPerM2 * diameterM
    const found = limitAt(elevationM)
    const facts = limitFactsOf(at(elevationM))
    if (!facts.ok) throw new Error('Drake')
    const { lowC, lowOhmPerM, highC, highOhmPerM } = facts.value.bodies.conductor.resistance
    const ohmPerM = lowOhmPerM + ((highOhmPerM - lowOhmPerM) * (surfaceC - lowC)) / (highC - lowC)
    expect(found.spliceLineA).toBeCloseTo(Math.sqrt(net / (2 * ohmPerM)), 6)
    expect(found.weather.elevationM).toBe(elevationM)
  })

  it('is that of the setting where no elevation of its own is on record, and its own wins over the setting', () => {
    const facts = limitFactsOf(at(undefined))
    if (!facts.ok) throw new Error('Drake')
    const high = currentLimit(facts.value, 2, settingAt(2000))
    expect(high.ok && high.value.spliceLineA).toBe(limitAt(2000).spliceLineA)
    const own = currentLimit({ ...facts.value, elevationM: 0 }, 2, settingAt(2000))
    expect(own.ok && own.value.spliceLineA).toBe(limitAt(0).spliceLineA)
  })

  it('is one figure on the sheet and on the line, in rating weather', () => {
    const facts = limitFactsOf(at(2000))
    if (!facts.ok) throw new Error('Drake')
    const joint = heatedWith(facts.value.bodies, 1, 2, 2)
    const section = { conductorCode: 'Drake', subconductors: 1, ratingA: null, maxOperatingC: 75, elevationM: 2000 }
    const found = limitInWeather(joint, section, null, ratingWeatherOf(defaultPolicy), defaultPolicy)
    expect(found).toEqual({ ok: true, value: limitAt(2000) })
    const warm = limitInWeather(joint, section, null, { ...ratingWeatherOf(defaultPolicy), ambientC: 30 }, defaultPolicy)
    expect(warm).toMatchObject({ ok: true, value: { use: 'not-a-rating', weather: { ambientC: 30, elevationM: 2000 } } })
  })

  it('moves the edges of a hot section as the setting would', () => {
    const own = computedEdgesFor(contextFor({ ...FACTS, maxOperatingC: 100, elevationM: 2000 }, defaultPolicy), 100)
    expect(own).toEqual(computedEdgesFor(contextFor({ ...FACTS, maxOperatingC: 100 }, settingAt(2000)), 100))
    expect(own).not.toEqual(computedEdgesFor(contextFor({ ...FACTS, maxOperatingC: 100 }, defaultPolicy), 100))
  })
})

describe('a picture at the elevation of its section', () => {
  const place = { latitudeDeg: 40, longitudeDeg: -105, lineAzimuthDeg: 90 }
  const taken: InfraredEvidence = {
    source: 'infrared', readingId: 1, afterRepair: false, takenAtMs: Date.UTC(2025, 5, 10, 19), sun: 'direct', ambientC: 20, spliceTempC: 60, windMS: 1,
    current30minA: 800, referenceKind: 'air', emissivity: 0.7,
  }
  const sunAt = (elevationM: number | undefined, policy = defaultPolicy) => pictureOf(taken, contextFor(FACTS, policy), { ...place, elevationM })?.calm

  // IEEE Std 738-2012: clear sun rises with elevation by 1 + 1.148e-4 H − 1.108e-8 H².
  it.each(HEIGHTS_M)('has the clear sun of %s m', (elevationM) => {
    const rise = 1 + 1.148e-4 * elevationM - 1.108e-8 * elevationM ** 2
    expect((sunAt(elevationM)?.sunWPerM2 ?? NaN) / (sunAt(0)?.sunWPerM2 ?? NaN)).toBeCloseTo(rise, 10)
  })

  it('takes the setting where none is on record, for sun and air', () => {
    expect(sunAt(undefined, settingAt(2000))).toEqual(sunAt(2000))
    expect(sunAt(500, settingAt(2000))).toEqual(sunAt(500))
  })

  it('reads a lower ratio of the same temperatures in thinner air, which takes less heat away in the same wind', () => {
    const k = (elevationM: number) => infraredVerdict({ ...taken, sun: 'none' }, contextFor(FACTS, defaultPolicy), { ...place, elevationM }).measured?.k ?? NaN
    expect(k(2000)).toBeLessThan(k(0))
    expect(k(3500)).toBeLessThan(k(2000))
  })
})

describe('a flight over a high section', () => {
  it('needs less load there for a bad splice to show: it runs hotter', () => {
    const facts = limitFactsOf(at(undefined))
    if (!facts.ok) throw new Error('Drake')
    const needed = (elevationM: number) => {
      const found = flightVerdict(
        { bodies: [facts.value.bodies], subconductors: 1, ratingA: 900 }, 400, { ambientC: 20, windMS: 1, sky: 'none', elevationM }, { netdK: 0.05, ifovMrad: 0.3 }, defaultPolicy,
      )
      return found.ok ? found.value.neededLineA ?? NaN : NaN
    }
    expect(needed(2500)).toBeLessThan(needed(0))
  })
})
