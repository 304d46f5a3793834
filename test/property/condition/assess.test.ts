import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  assess, defaultPolicy, explain, explainInfrared, MEASURED_CLASSES, ownNumbersClass, showClass, type Assessment, type ConditionClass,
    type ResistanceEvidence,
  type SpliceFacts,
} from '@/lib/condition'
import { evidence, facts, infrared, NOW_MS, resistance, visual } from './arbitrary'

const rank = (condition: ConditionClass): number => MEASURED_CLASSES.findIndex((measured) => measured === condition)
const judge = (of: SpliceFacts, readings: Parameters<typeof assess>[0]['evidence'], policy = defaultPolicy): Assessment =>
  assess({ facts: of, evidence: readings, policy, asOfMs: NOW_MS })

const PAD: SpliceFacts = { kind: 'bolted pad', subconductors: 1 }
const one = (sideAUohm: number, conductorUohm: number): ResistanceEvidence => ({
  source: 'resistance', readingId: 1, takenAtMs: NOW_MS, afterRepair: false, sidesDeclared: true, sideAUohm, conductorUohm,
})
const ratio = fc.double({ min: 0.16, max: 90, noNaN: true })
/** Any ratio of these, five times larger or smaller, stays within what an instrument reads. */
const conductor = fc.double({ min: 20, max: 100, noNaN: true })

function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value]
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : []
}

describe('for any evidence within range', () => {
  it('every number of an assessment is finite and every sentence is whole', () => {
    fc.assert(fc.property(facts, evidence, (of, readings) => {
      const assessment = judge(of, readings)
      for (const number of numbersIn(assessment)) expect(Number.isFinite(number)).toBe(true)
      const text = explain(assessment, { unitSystem: 'us' })
      const pictures = assessment.infrared.map((note) => Object.values(explainInfrared(note, { unitSystem: 'us' })).flat().join(' '))
      for (const sentence of [text.headline, ...text.reasons, ...text.nextActions, ...pictures]) expect(sentence).not.toMatch(/undefined|NaN|Infinity/)
    }), { numRuns: 1500 })
  })

  it('the shares are shares and sum to 1', () => {
    fc.assert(fc.property(facts, evidence, (of, readings) => {
      const shares = Object.values(judge(of, readings).shares)
      expect(shares.reduce((a, b) => a + b)).toBeCloseTo(1, 9)
      for (const share of shares) expect(share).toBeGreaterThanOrEqual(-1e-12)
    }))
  })

  it('the worse side governs, unless heat or broken strands say worse than any side', () => {
    fc.assert(fc.property(facts, evidence, (of, readings) => {
      const { class: condition, sides, governingSide, raisedBy } = judge(of, readings)
      if (condition === 'unknown') return
      const worst = Math.max(-1, ...sides.map((side) => rank(side.class)))
      expect(rank(condition)).toBeGreaterThanOrEqual(worst)
      if (raisedBy) {
        expect(governingSide).toBeUndefined()
        expect(rank(condition)).toBeGreaterThan(worst)
      } else if (sides.length > 0) expect(rank(sides.find(({ side }) => side === governingSide)?.class ?? 'unknown')).toBe(worst)
    }), { numRuns: 1000 })
  })

  it('no usable ratio and no conclusive picture is unknown or, for broken strands, urgent; never sound', () => {
    const tells = ({ k, inconclusive }: Assessment['infrared'][number]) => k !== undefined && inconclusive.length === 0
    fc.assert(fc.property(facts, fc.array(fc.oneof(infrared, visual), { maxLength: 6 }), (of, readings) => {
      const assessment = judge(of, readings)
      if (!assessment.infrared.some(tells)) expect(['unknown', 'urgent']).toContain(assessment.class)
    }))
    fc.assert(fc.property(facts, evidence, (of, readings) => {
      const assessment = judge(of, readings)
      if (assessment.sides.length === 0 && !assessment.infrared.some(tells)) expect(['unknown', 'urgent']).toContain(assessment.class)
    }))
  })

  it('pictures leave the class of resistance where it is or raise it', () => {
    fc.assert(fc.property(facts, fc.array(resistance, { maxLength: 3 }), fc.array(infrared, { maxLength: 3 }), (of, looks, shots) => {
      // A repair begins a new series and makes history of what came before.
      const readings = looks.map((reading) => ({ ...reading, afterRepair: false }))
      const pictures = shots.map((picture) => ({ ...picture, afterRepair: false }))
      const alone = judge(of, readings)
      if (alone.class !== 'unknown') expect(rank(judge(of, [...readings, ...pictures]).class)).toBeGreaterThanOrEqual(rank(alone.class))
    }), { numRuns: 1000 })
  })

  it('a side whose interface is not proved never leaves the splice sound', () => {
    fc.assert(fc.property(evidence, (readings) => {
      const assessment = judge({ kind: 'full-tension splice', subconductors: 1, conductorCode: 'Drake' }, readings)
      if (assessment.flags.includes('interface-not-proved') && assessment.sides.length < 2) expect(assessment.class).not.toBe('sound')
    }))
  })

  it('one reading by its own numbers never fails', () => {
    fc.assert(fc.property(fc.option(facts, { nil: undefined }), fc.oneof(resistance, infrared, visual), (of, reading) => {
      const own = ownNumbersClass(reading, of, defaultPolicy)
      expect(own.urgent).toBe(own.class === 'urgent' || own.class === 'critical')
    }))
  })
})

describe('the ratio', () => {
  it('does not depend on the scale of both readings', () => {
    fc.assert(fc.property(ratio, conductor, fc.double({ min: 0.2, max: 5, noNaN: true }), (k, uohm, scale) => {
      const small = judge(PAD, [one(k * uohm, uohm)])
      const scaled = judge(PAD, [one(k * uohm * scale, uohm * scale)])
      expect((scaled.ratio ?? 0) / (small.ratio ?? 1)).toBeCloseTo(1, 12)
    }))
  })

  it('nor does the class, without a fixed error of the instrument', () => {
    const policy = { ...defaultPolicy, instrument: { ...defaultPolicy.instrument, limitOffsetUohm: 0 } }
    fc.assert(fc.property(ratio, conductor, fc.constantFrom(0.25, 0.5, 2, 4), (k, uohm, scale) => {
      expect(judge(PAD, [one(k * uohm * scale, uohm * scale)], policy).class).toBe(judge(PAD, [one(k * uohm, uohm)], policy).class)
    }))
  })

  it('never gives a better class for a higher side reading', () => {
    fc.assert(fc.property(ratio, ratio, conductor, (a, b, uohm) => {
      const low = judge(PAD, [one(Math.min(a, b) * uohm, uohm)])
      const high = judge(PAD, [one(Math.max(a, b) * uohm, uohm)])
      expect(rank(high.class)).toBeGreaterThanOrEqual(rank(low.class))
    }), { numRuns: 2000 })
  })

  it('is refused by name outside its ranges', () => {
    const outside = fc.oneof(
      fc.double({ min: -1e9, max: 0.499, noNaN: true }), fc.double({ min: 50_001, max: 1e12, noNaN: true }), fc.constantFrom(NaN,
        Infinity, -Infinity),
    )
    fc.assert(fc.property(outside, conductor, (side, uohm) => {
      const assessment = judge(PAD, [one(side, uohm)])
      expect(assessment.class).toBe('unknown')
      expect(assessment.reasons.map(({ code }) => code)).toContain('reading-out-of-range')
    }))
  })
})

describe('what is on show', () => {
  it('never falls from urgent or critical before two visits later than the finding, nor under the evidence', () => {
    const previous = fc.record({ class: fc.constantFrom('urgent' as const, 'critical' as const), foundAtMs: fc.integer({ min: 0,
      max: NOW_MS }) })
    fc.assert(fc.property(facts, evidence, previous, (of, readings, before) => {
      const assessment = judge(of, readings)
      const shown = showClass(before, assessment, defaultPolicy)
      const later = assessment.visits.filter(({ takenAtMs = -1, complete }) => takenAtMs > before.foundAtMs && complete)
      if (later.length < 2) expect(rank(shown.class)).toBeGreaterThanOrEqual(rank(before.class))
      expect(rank(shown.class)).toBeGreaterThanOrEqual(rank(assessment.class))
      expect(shown.held).toBe(shown.class !== assessment.class)
    }), { numRuns: 1000 })
  })

  it('is never lowered by taking evidence away', () => {
    fc.assert(fc.property(facts, evidence, fc.nat(), (of, readings, at) => {
      const all = showClass(null, judge(of, readings), defaultPolicy)
      if (rank(all.class) < rank('urgent')) return
      const fewer = readings.filter((_, i) => i !== at % Math.max(1, readings.length))
      const later = showClass(all, judge(of, fewer), defaultPolicy)
      expect(rank(later.class)).toBeGreaterThanOrEqual(rank('urgent'))
    }))
  })
})
