import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { assess, defaultPolicy, type InfraredEvidence } from '@/lib/condition'
import { correctedBy, settingsOf, shownBy } from '@/lib/condition/camera'
import { facts, infrared, NOW_MS } from './arbitrary'

const emissivity = fc.double({ min: 0.15, max: 1, noNaN: true })
const noteOf = (of: Parameters<typeof assess>[0]['facts'], evidence: InfraredEvidence) =>
  assess({ facts: of, evidence: [evidence], policy: defaultPolicy, asOfMs: NOW_MS }).infrared[0]

describe('for any picture', () => {
  it('a camera set to what the surface has leaves every temperature, and the ratio, as they would be given', () => {
    fc.assert(fc.property(facts, infrared, emissivity, (of, evidence, ε) => {
      const stated = { ...of, surfaceEmissivity: ε }
      const set = noteOf(stated, { ...evidence, emissivity: ε })
      const given = noteOf(stated, { ...evidence, emissivity: undefined, reflectedC: undefined })
      if (set?.trueSpliceC !== undefined) expect(set.trueSpliceC).toBe(evidence.spliceTempC)
      if (set?.trueOverConductorK !== undefined) expect(set.trueOverConductorK).toBe(set.overConductorK)
      expect(set?.hot).toBe(given?.hot)
      if (set?.k !== undefined && given?.k !== undefined) expect(set.k).toBe(given.k)
    }), { numRuns: 500 })
  })

  it('what is put right for a surface is read again by a camera that is set to it', () => {
    const surfaces = fc.tuple(emissivity, emissivity)
    fc.assert(fc.property(infrared, surfaces, (evidence, [set, surface]) => {
      const settings = settingsOf({ ...evidence, emissivity: set }, defaultPolicy)
      const there = settings && correctedBy(shownBy(settings, evidence), surface, surface)
      if (!settings || !there?.ok) return
      const back = correctedBy(shownBy({ ...settings, emissivity: surface }, there.value), set, set)
      expect(back.ok).toBe(true)
      if (!back.ok) return
      for (const key of ['spliceTempC', 'conductorTempC'] as const) {
        if (evidence[key] === undefined) expect(back.value[key]).toBeUndefined()
        else expect(back.value[key]).toBeCloseTo(evidence[key], 5)
      }
    }), { numRuns: 500 })
  })

  it('of two temperatures the hotter one stays the hotter, and a brighter surface than set makes what is over the mirrored temperature hotter', () => {
    fc.assert(fc.property(infrared, emissivity, emissivity, (evidence, set, surface) => {
      const settings = settingsOf({ ...evidence, emissivity: set, reflectedC: evidence.reflectedC ?? -10 }, defaultPolicy)
      const { spliceTempC = 40, conductorTempC = 30 } = evidence
      const found = settings && correctedBy(shownBy(settings, { spliceTempC, conductorTempC }), surface, surface)
      if (!settings || !found?.ok) return
      const { spliceTempC: spliceC = NaN, conductorTempC: conductorC = NaN } = found.value
      if (Math.abs(spliceTempC - conductorTempC) > 1e-6) expect(Math.sign(spliceC - conductorC)).toBe(Math.sign(spliceTempC - conductorTempC))
      if (Math.abs(surface - set) > 1e-6 && spliceTempC - settings.reflectedC > 1e-3) expect(Math.sign(spliceC - spliceTempC)).toBe(Math.sign(set - surface))
    }), { numRuns: 500 })
  })
})
