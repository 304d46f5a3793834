import { describe, expect, it } from 'vitest'
import { defaultPolicy } from '@/lib/condition'
import { carriedK } from '@/lib/condition/loading/carried-k'
import { heatedJoint, type JointOfLine, type SectionOfLine } from '@/lib/condition/loading/line-joint'
import { infrared, judge, resistance } from '../evidence'

const FREE = { held: false }
/** Median 0.65 and spread 0.6 of ln k: the upper bound of an unread splice is 0.65 × exp(1.2816 × 0.6). */
const UNREAD_UPPER = 0.65 * Math.exp(0.6 * 1.2815515655446)

describe('the ratio that a splice is reckoned with', () => {
  it('is that of its worse side, and for limits the bound that its own limit is drawn at', () => {
    const assessment = judge([resistance({ sideAUohm: 35 })])
    const found = carriedK(assessment, FREE, defaultPolicy)
    expect(found).toMatchObject({ basis: 'read', k: expect.closeTo(assessment.sides[0]?.medianK ?? NaN, 9) })
    expect(found.upperK).toBeCloseTo(assessment.limit?.k ?? NaN, 9)
  })

  it('is drawn from infrared alone with the bound of its limit too', () => {
    const assessment = judge([infrared({ spliceTempC: 70 })])
    const found = carriedK(assessment, FREE, defaultPolicy)
    expect(found.basis).toBe('read')
    expect(found.upperK).toBeCloseTo(assessment.limit?.k ?? NaN, 9)
  })

  it('is never less than the finding that holds its class', () => {
    const assessment = judge([resistance()])
    expect(carriedK(assessment, { held: true, foundRatio: 2.4 }, defaultPolicy)).toEqual({ k: 2.4, upperK: 2.4, basis: 'finding' })
    expect(carriedK(assessment, { held: false, foundRatio: 2.4 }, defaultPolicy).basis).toBe('read')
  })

  it('of a splice that nobody read is what the policy believes of one, and never that of a sound splice', () => {
    for (const assessment of [null, judge([])]) {
      const found = carriedK(assessment, FREE, defaultPolicy)
      expect(found).toMatchObject({ basis: 'unread', k: expect.closeTo(0.65, 9) })
      expect(found.upperK).toBeCloseTo(UNREAD_UPPER, 9)
      expect(found.upperK).toBeGreaterThan(1.3)
    }
  })

  it('of a splice whose reading gives no class is no better than unread', () => {
    const assessment = judge([resistance({ sideAUohm: 8, sideBUohm: undefined, barrelElectrodeM: 0.3 })])
    expect(assessment.class).toBe('unknown')
    expect(carriedK(assessment, FREE, defaultPolicy).upperK).toBeGreaterThanOrEqual(UNREAD_UPPER - 1e-9)
  })
})

const SECTION: SectionOfLine = { conductorCode: 'Drake', subconductors: 1, ratingA: 900, maxOperatingC: 75 }
const JOINT: JointOfLine = { kind: 'full-tension splice', fittingType: null, barrelOdMm: 47.6, k: 0.7, upperK: 0.9, basis: 'read' }

describe('a splice without a heat balance', () => {
  it.each([
    ['shield-wire', { kind: 'shield-wire splice' as const }, {}],
    ['automatic', { fittingType: 'automatic' }, {}],
    ['no-barrel', { kind: 'wedge' as const }, {}],
    ['no-conductor', {}, { conductorCode: null }],
    ['conductor-not-in-table', {}, { conductorCode: 'Nobody' }],
    ['ratio-out-of-range', { upperK: 101 }, {}],
  ])('is left out by name: %s', (why, joint, section) => {
    expect(heatedJoint({ ...JOINT, ...joint }, { ...SECTION, ...section }, defaultPolicy)).toBe(why)
  })

  it('is not one of a usual kind: a barrel that is not on record is a typical one', () => {
    expect(heatedJoint({ ...JOINT, barrelOdMm: null }, SECTION, defaultPolicy)).toMatchObject({ k: 0.7, upperK: 0.9, bodies: { barrelTypical: true } })
  })
})
