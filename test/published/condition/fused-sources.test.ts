import { describe, expect, it } from 'vitest'
import { defaultPolicy, type SpliceFacts } from '@/lib/condition'
import { sharesFrom, type Chances } from '@/lib/condition/classify'
import { contextFor } from '@/lib/condition/context'
import { carriedTo, compare, meanOfSides, type InfraredBelief } from '@/lib/condition/fusion'
import { classByInfrared } from '@/lib/condition/infrared-belief'
import type { SideMeasurement } from '@/lib/condition/measure'
import { fuse, type Belief } from '@/lib/condition/posterior'
import { assessSide, type Signs } from '@/lib/condition/side'
import { expectPrinted } from './printed'

/** Status of every printed figure here: computed with an independent reference, at the edges 1 / 1.3 / 1.85 / 2.75. */
const DRAKE: SpliceFacts = { kind: 'full-tension splice', subconductors: 1, conductorCode: 'Drake' }
const context = contextFor(DRAKE, defaultPolicy)
const NO_SIGNS: Signs = { firm: { overK: 1.3, odds: 1 }, windy: null }
const item = (k: number, sd: number): Belief => ({ mean: Math.log(k), sd })
const picture = (k: number, sd: number, windy = false): InfraredBelief => ({ measured: item(k, sd), belief: item(k, sd), windy, readingIds: [] })
const expectShares = (chances: Chances, printed: string[]) => {
  const { sound, watch, degraded, urgent, critical } = sharesFrom(chances)
  for (const [i, share] of [sound, watch, degraded, urgent, critical].entries()) expectPrinted(share, printed[i] ?? '')
}

/** A side of which only the ratio and its error matter. */
const side = (ratio: number, uLnK: number): SideMeasurement => ({
  side: 'A', ratio, uLnK, sideUohm: 20 * ratio, conductorUohm: 20, uSideUohm: 20 * ratio * uLnK, uConductorUohm: 0, repeats: 1, reference: 'measured',
  sidesDeclared: true, flags: [], reasons: [], readingIds: [],
})

describe('infrared alone, k 2 ± 0.35', () => {
  const found = classByInfrared(picture(2, 0.35), NO_SIGNS, context)

  it('is believed to be 1.5035 and parts among the classes as printed', () => {
    expectPrinted(Math.exp(found.belief.mean), '1.5035')
    expectShares(found.pOver, ['.08869', '.22655', '.43840', '.22346', '.02290'])
  })

  it('is degraded by the rules', () => {
    expect(found.class).toBe('degraded')
  })
})

describe('resistance 1.9 ± 0.07 and infrared 2.1 ± 0.35', () => {
  const believed = assessSide(side(1.9, 0.07), 0, NO_SIGNS, context, { item: item(2.1, 0.35), replaces: false, windy: false })

  it('agree and give 1.8810', () => {
    expect(compare(item(1.9, 0.07), item(2.1, 0.35), defaultPolicy).conflict).toBe(false)
    expectPrinted(believed.medianK, '1.8810')
    expectPrinted(believed.pOver.degraded - believed.pOver.urgent, '.40378')
    expectPrinted(believed.pOver.urgent - believed.pOver.critical, '.59622')
  })
})

describe('resistance 0.7 ± 0.07 against infrared 2.6 ± 0.35', () => {
  const compared = compare(item(0.7, 0.07), item(2.6, 0.35), defaultPolicy)

  it('conflict by 13.515 over 6.63, and infrared is the worse', () => {
    expectPrinted(compared.statistic, '13.515')
    expect(compared).toMatchObject({ conflict: true, worse: 'infrared' })
  })

  it('are not averaged: the worse gives 1.8286 and the printed shares', () => {
    const believed = assessSide(side(0.7, 0.07), 0, NO_SIGNS, context, { item: item(2.6, 0.35), replaces: true, windy: false })
    expectPrinted(believed.medianK, '1.8286')
    expectShares(believed.pOver, ['.02295', '.10660', '.38581', '.39610', '.08855'])
    expect(believed.class).toBe('urgent')
  })
})

/** Properties of the rules themselves; no published values. */
describe('the mean of two sides', () => {
  const [a, b] = [{ belief: item(0.8, 0.07), uSharedLn: 0 }, { belief: item(2.4, 0.07), uSharedLn: 0 }]
  const mean = meanOfSides(a, b)

  it('is the mean of their ratios, surer than either', () => {
    expect(Math.exp(mean.mean)).toBeCloseTo(1.6, 12)
    expect(mean.sd).toBeCloseTo(0.07 * Math.hypot(0.25, 0.75), 12)
  })

  it('is no surer than the conductor reading that both share', () => {
    const shared = meanOfSides({ ...a, uSharedLn: 0.07 }, { ...b, uSharedLn: 0.07 })
    expect(shared.sd).toBeCloseTo(0.07, 12)
  })

  it('carries infrared to each side by how far it measured from the mean', () => {
    expect(Math.exp(carriedTo(b.belief, mean, item(1.6, 0.3)).mean)).toBeCloseTo(2.4, 12)
    expect(Math.exp(carriedTo(a.belief, mean, item(3.2, 0.3)).mean)).toBeCloseTo(1.6, 12)
  })

  it('fused and then carried is the same as carried and then fused', () => {
    const infrared = item(2, 0.3)
    const wide = { mean: 0, sd: 1e9 }
    const exact = { ...mean, sd: b.belief.sd }
    const fusedThenCarried = fuse(wide, [exact, infrared]).mean + b.belief.mean - mean.mean
    expect(fuse(wide, [b.belief, carriedTo(b.belief, mean, infrared)]).mean).toBeCloseTo(fusedThenCarried, 9)
  })
})

describe('wind', () => {
  it('over the limit keeps infrared alone at degraded, however hot', () => {
    expect(classByInfrared(picture(9, 0.3), NO_SIGNS, context).class).toBe('critical')
    expect(classByInfrared(picture(9, 0.3, true), NO_SIGNS, context).class).toBe('degraded')
  })

  it('keeps it from lifting a side over degraded, and lowers none', () => {
    const windy = { item: item(9, 0.3), replaces: true, windy: true }
    expect(assessSide(side(0.8, 0.07), 0, NO_SIGNS, context, windy).class).toBe('degraded')
    expect(assessSide(side(4, 0.07), 0, NO_SIGNS, context, { ...windy, item: item(3.5, 0.3), replaces: false }).class).toBe('critical')
  })

  it('or not, infrared lowers no class', () => {
    const cool = { item: item(0.5, 0.25), replaces: false, windy: false }
    const alone = assessSide(side(1.5, 0.2), 0, NO_SIGNS, context)
    expect(alone.class).toBe('degraded')
    expect(fuse({ mean: Math.log(0.65), sd: 0.6 }, [item(1.5, 0.2), cool.item]).mean).toBeLessThan(0)
    expect(assessSide(side(1.5, 0.2), 0, NO_SIGNS, context, cool)).toEqual(alone)
  })
})
