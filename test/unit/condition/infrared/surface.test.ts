import { describe, expect, it } from 'vitest'
import { defaultPolicy, explainInfrared, ownNumbersClass, surfacesOf, workingOf, type Evidence, type InfraredEvidence, type SpliceFacts } from '@/lib/condition'
import { settingsOf } from '@/lib/condition/camera'
import { YEAR_MS } from '@/lib/condition/limits'
import { DRAKE, infrared, judge, NOW_MS, resistance } from '../evidence'

const aged = (years: number): Partial<SpliceFacts> => ({ installedAtMs: NOW_MS - years * YEAR_MS })
const noteOf = (evidence: InfraredEvidence, facts: Partial<SpliceFacts> = {}) => {
  const [note] = judge([evidence], facts).infrared
  if (!note) throw new Error('no picture')
  return note
}

// New bright 0.2 to 0.3, one to two years 0.4 to 0.6, weathered five to ten years 0.7 to 0.9: from memory, no published source.
describe('the true surface', () => {
  const barrel = (facts: Partial<SpliceFacts>, evidence: Partial<InfraredEvidence> = {}) =>
    surfacesOf({ afterRepair: false, takenAtMs: NOW_MS, ...evidence }, facts, defaultPolicy).barrel

  it.each([
    [0.2, 'new', 0.2, 0.3], [0.9, 'new', 0.2, 0.3], [1.1, 'young', 0.4, 0.6], [2, 'young', 0.4, 0.6], [6, 'weathered', 0.7, 0.9], [30, 'weathered', 0.7, 0.9],
  ] as const)('of a splice of %f years is %s', (years, age, least, greatest) => {
    const found = barrel(aged(years))
    expect(found).toMatchObject({ age, ageKnown: true })
    expect(found.emissivity).toBeGreaterThanOrEqual(least)
    expect(found.emissivity).toBeLessThanOrEqual(greatest)
  })

  it('is weathered, its age not known, where nobody noted when it was put up, when it was read, or both days cannot be right', () => {
    for (const found of [barrel({}), barrel(aged(3), { takenAtMs: undefined }), barrel(aged(-1))]) {
      expect(found).toEqual({ emissivity: defaultPolicy.radiometry.emissivity, age: 'weathered', ageKnown: false })
    }
  })

  it('is that of a new one after a repair, and of the conductor always weathered', () => {
    const { barrel: repaired, conductor } = surfacesOf({ afterRepair: true, takenAtMs: NOW_MS }, aged(30), defaultPolicy)
    expect(repaired.age).toBe('new')
    expect(conductor.age).toBe('weathered')
    expect(surfacesOf({ afterRepair: false, takenAtMs: NOW_MS }, aged(0.5), defaultPolicy).conductor.age).toBe('weathered')
  })

  it('is what somebody states, whatever the age', () => {
    expect(barrel({ ...aged(0.1), surfaceEmissivity: 0.82 })).toEqual({ emissivity: 0.82, age: 'stated', ageKnown: true })
  })
})

describe('a picture by what the camera had set', () => {
  it('proves nothing of bright new metal, whatever the camera had set, and of weathered metal whose camera was set low it may', () => {
    expect(noteOf(infrared({ emissivity: 0.95, reflectedC: 10 }), aged(0.5)).inconclusive).toContain('emissivity')
    expect(noteOf(infrared({ emissivity: 0.7 }), aged(0.5)).inconclusive).toContain('emissivity')
    expect(noteOf(infrared({ emissivity: 0.4, reflectedC: 20 }), aged(20)).inconclusive).not.toContain('emissivity')
    expect(noteOf(infrared({ emissivity: undefined }), aged(0.5)).inconclusive).toContain('emissivity')
  })

  it('keeps what was read and shows beside it what is true; the published criteria keep to what was read', () => {
    const note = noteOf(infrared({ spliceTempC: 55, conductorTempC: 42, emissivity: 0.95, reflectedC: -10, band: 'lw' }), aged(20))
    expect(note).toMatchObject({ spliceTempC: 55, overConductorK: 13, overAmbientK: 35 })
    expect(note.trueSpliceC).toBeGreaterThan(60)
    expect(note.trueOverConductorK).toBeGreaterThan(14)
    expect(note.criteria.map(({ column, fromK, upToK }) => [column, fromK, upToK])).toEqual([['similar component', 3, 15], ['ambient air', 20, 40]])
  })

  it('judges heat by what is true: 14 K as read are over 15 K put right, and urgent where no ratio is told', () => {
    const far = { spliceTempC: 56, conductorTempC: 42, distanceM: 200, reflectedC: -10, band: 'lw' as const }
    expect(judge([infrared({ ...far, emissivity: 0.7 })], aged(20)).class).not.toBe('urgent')
    const found = judge([infrared({ ...far, emissivity: 0.95 })], aged(20))
    expect(found.class).toBe('urgent')
    expect(ownNumbersClass(infrared({ ...far, emissivity: 0.95 }), DRAKE, defaultPolicy).urgent).toBe(true)
  })

  it('calls no sleeve hot for being bright: of new metal the heat is taken as read', () => {
    const cold = infrared({ spliceTempC: 33, conductorTempC: 42, emissivity: 0.95, reflectedC: -10, band: 'lw' })
    const note = noteOf(cold, aged(0.3))
    expect(note.trueOverConductorK).toBeGreaterThan(15)
    expect(note).toMatchObject({ hot: false, heatOverConductorK: -9 })
    expect(judge([cold], aged(0.3)).class).toBe('unknown')
    expect(noteOf(infrared({ ...cold, spliceTempC: 50 }), aged(0.3)).hot).toBe(true)
  })

  it('takes the air for what is reflected where only the emissivity was noted, and all as given where neither was', () => {
    expect(settingsOf(infrared({ emissivity: 0.95 }), defaultPolicy)).toEqual({ emissivity: 0.95, reflectedC: 20, reflectedFrom: 'air', trueReflectedC: 20, spectrum: 'total' })
    expect(settingsOf(infrared({ emissivity: 0.95, ambientC: undefined }), defaultPolicy)).toBeNull()
    expect(settingsOf(infrared({ emissivity: undefined, reflectedC: -10 }), defaultPolicy)).toBeNull()
    expect(noteOf(infrared({ emissivity: undefined, reflectedC: -10 }))).toMatchObject({ camera: undefined, trueSpliceC: undefined })
  })

  it('ages from a repair that its readings tell of, whatever day of installation stands on record', () => {
    const repaired = { ...resistance({ sideAUohm: 8, sideBUohm: 7 }), afterRepair: true, takenAtMs: NOW_MS - 3 * YEAR_MS }
    const later = infrared({ emissivity: 0.95, reflectedC: 10, takenAtMs: NOW_MS - YEAR_MS })
    const age = (evidence: Evidence[]) => judge(evidence, aged(30)).infrared.at(-1)?.surfaces?.barrel.age
    expect(age([later])).toBe('weathered')
    expect(age([repaired, later])).toBe('young')
    expect(age([{ ...repaired, takenAtMs: later.takenAtMs && later.takenAtMs - 1000 }, later])).toBe('new')
    const working = workingOf({ assessment: judge([repaired, later], aged(30)), facts: { ...DRAKE, ...aged(30) }, evidence: [repaired, later], policy: defaultPolicy, asOfMs: NOW_MS })
    expect(JSON.stringify(working)).toContain('young metal')
  })

  // test/published/radiometry/infrared.json, case 'camera .95, real .6, sky -20': 65.18 °C by all wavelengths, 65.60 °C by 7.5 to 14 µm (computed).
  it.each([[undefined, 65.1841], ['lw', 65.6036]] as const)('puts it right for a sky that the policy takes, band %s', (band, expectedC) => {
    const policy = { ...defaultPolicy, radiometry: { ...defaultPolicy.radiometry, reflectsSky: true, skyBelowAirK: 40 } }
    const seen = infrared({ spliceTempC: 40, conductorTempC: 35, emissivity: 0.95, reflectedC: 20, ambientC: 20, band })
    const { infrared: [note] } = judge([seen], { surfaceEmissivity: 0.6 }, policy)
    expect(note?.trueSpliceC).toBeCloseTo(expectedC, 3)
    expect(note && explainInfrared(note, { unitSystem: 'metric' }).emissivity).toContain('Metal mirrors a sky of −20.0 °C by policy.')
    expect(noteOf(seen, { surfaceEmissivity: 0.6 }).trueSpliceC).toBeLessThan(60)
  })

  it('does not take a thermometer’s air for a surface, and another fitting for one of the same age', () => {
    const seen = { spliceTempC: 55, conductorTempC: 42, emissivity: 0.95, reflectedC: -10 }
    const air = noteOf(infrared({ ...seen, referenceKind: 'air' }), aged(20))
    expect(air).toMatchObject({ trueConductorC: undefined, trueOverConductorK: undefined })
    const own = noteOf(infrared({ ...seen, conductorTempC: 55 }), aged(2))
    const other = noteOf(infrared({ ...seen, conductorTempC: 55, referenceKind: 'same-fitting' }), aged(2))
    expect(other.trueOverConductorK).toBeCloseTo(0, 9)
    expect(own.trueOverConductorK).toBeGreaterThan(3)
  })

  it('names the cause where more would be reflected than was seen, and where no camera can be set so', () => {
    const over = noteOf(infrared({ spliceTempC: 21, conductorTempC: 20, emissivity: 1, reflectedC: 150 }), aged(20))
    expect(over.inconclusive).toContain('reflection-exceeds-signal')
    expect(over).toMatchObject({ k: undefined, trueSpliceC: undefined })
    expect(explainInfrared(over, { unitSystem: 'metric' }).inconclusive).toContain('more reflected by the set temperature than the camera saw')
    const slip = noteOf(infrared({ emissivity: 0.05 }), aged(20))
    expect(slip.inconclusive).toContain('camera-settings')
    expect(slip.k).toBeUndefined()
  })

  it('doubts the emissivity more where sleeve and conductor have weathered for unlike times: they are not off alike', () => {
    const at = (youngEmissivity: number) => {
      const policy = { ...defaultPolicy, radiometry: { ...defaultPolicy.radiometry, youngEmissivity } }
      const { infrared: [note] } = judge([infrared({ spliceTempC: 50, conductorTempC: 40, emissivity: 0.7, reflectedC: 0, band: 'lw' })], aged(2), policy)
      return note?.uLnK ?? NaN
    }
    expect(at(0.69)).toBeGreaterThan(2 * at(0.7))
  })
})

describe('in words', () => {
  const said = (fields: Partial<InfraredEvidence>, facts: Partial<SpliceFacts> = {}) =>
    explainInfrared(noteOf(infrared({ spliceTempC: 60, ...fields }), facts), { unitSystem: 'metric' }).emissivity

  it('the camera’s setting and the true value stand apart, with what the one made of the other', () => {
    const seen = { spliceTempC: 48, conductorTempC: 36, emissivity: 0.9, reflectedC: 10, band: 'lw' as const }
    expect(said(seen, aged(20))).toContain('True emissivity of the splice 0.70, weathered metal by policy. Put right')
    expect(said(seen)).toMatch(
      /^Camera set to emissivity 0\.90 and 10\.0 °C reflected\. True emissivity of the splice 0\.70, weathered metal by policy \(age not on record\)\. Put right, the splice has 5\d\.\d °C, 1\d\.\d °C hotter than its conductor\. Ratio \d\.\d\d; of the same picture /,
    )
  })

  it('nothing is said to be put right where nothing was noted, or all was set right', () => {
    expect(said({ emissivity: undefined })).toMatch(/^What the camera had set is not noted: the temperatures count as given\. True emissivity .*with the same temperatures it would be at 0\.3/)
    expect(said({ emissivity: 0.7 })).toContain('Both are alike: the temperatures stand as read.')
    expect(said({ emissivity: 0.05 })).toContain('With these no true temperature comes out.')
  })

  it('a young sleeve and its old conductor are told apart', () => {
    expect(said({ emissivity: 0.95, reflectedC: -10 }, aged(2))).toContain('True emissivity of the splice 0.50, young metal by policy; of the conductor 0.70, weathered metal')
  })
})
