import { describe, expect, it } from 'vitest'
import { defaultPolicy } from '@/lib/condition'
import { carriedK } from '@/lib/condition/loading/carried-k'
import { withUnreadBound } from '@/lib/condition/loading/unread-bound'
import { heatedJoint, type JointOfLine, type SectionOfLine } from '@/lib/condition/loading/line-joint'
import { DAY_MS, infrared, judge, NOW_MS, resistance } from '../evidence'

const FREE = { held: false }
/** Median 0.65 and spread 0.6 of ln k: the upper bound of an unread splice is 0.65 × exp(1.2816 × 0.6). */
const UNREAD_UPPER = 0.65 * Math.exp(0.6 * 1.2815515655446)

describe('the ratio that a splice is reckoned with', () => {
  it('is that of its worse side, and for limits the bound that its own limit is drawn at', () => {
    const assessment = judge([resistance({ sideAUohm: 35 })])
    const found = carriedK(assessment, FREE, NOW_MS, defaultPolicy)
    expect(found).toMatchObject({ basis: 'read', k: expect.closeTo(assessment.sides[0]?.medianK ?? NaN, 9) })
    expect(found.upperK).toBeCloseTo(assessment.limit?.k ?? NaN, 9)
  })

  it('is drawn from infrared alone with the bound of its limit too', () => {
    const assessment = judge([infrared({ spliceTempC: 70 })])
    const found = carriedK(assessment, FREE, NOW_MS, defaultPolicy)
    expect(found.basis).toBe('read')
    expect(found.upperK).toBeCloseTo(assessment.limit?.k ?? NaN, 9)
  })

  it('of a held finding counts with an upper bound like any other reading: a held 2.17 lies under no less than a read 2.12', () => {
    const held = carriedK(judge([resistance()]), { held: true, foundRatio: 2.17 }, NOW_MS, defaultPolicy)
    expect(held).toMatchObject({ k: expect.closeTo(2.17, 9), basis: 'finding', figure: false })
    // Limit of error 2 % and 1 µΩ, rectangular, on 20 and 43 µΩ: 4.7 % (computed); with 1.2816 standard errors under 2.31.
    expect(held.upperK).toBeCloseTo(2.17 * Math.exp(1.2815515655446 * 0.0473), 2)
    const read = carriedK(judge([resistance({ sideAUohm: 2.12 * 20, conductorUohm: 20 })]), FREE, NOW_MS, defaultPolicy)
    expect(read).toMatchObject({ basis: 'read', figure: true })
    expect(held.upperK).toBeGreaterThan(read.upperK)
  })

  it('of a held finding is less certain with the years, and never surer than its own reading was', () => {
    const assessment = judge([resistance()])
    const upper = (foundAtMs: number, visits = assessment.visits) =>
      carriedK({ ...assessment, visits }, { held: true, foundRatio: 2.4, foundAtMs }, NOW_MS, defaultPolicy).upperK
    expect(upper(NOW_MS - 730 * DAY_MS)).toBeGreaterThan(upper(NOW_MS))
    const own = { takenAtMs: NOW_MS, complete: true, readingIds: [1], sides: [{ side: 'A' as const, ratio: 2.4, uRatio: 0.36, sidesDeclared: true }] }
    expect(upper(NOW_MS, [own])).toBeCloseTo(2.4 * Math.exp(1.2815515655446 * 0.15), 6)
  })

  it('of a held finding whose reading of a side still stands has a figure, at the worse of it and what was read since', () => {
    const assessment = judge([resistance()])
    const visit = { takenAtMs: NOW_MS - DAY_MS, complete: true, readingIds: [1], sides: [{ side: 'A' as const, ratio: 2.4, uRatio: 0.1, sidesDeclared: true }] }
    const held = (more: object, foundAtMs = NOW_MS - DAY_MS) =>
      carriedK({ ...assessment, visits: [...assessment.visits, { ...visit, ...more }] }, { held: true, foundRatio: 2.4, foundAtMs }, NOW_MS, defaultPolicy)
    expect(held({})).toMatchObject({ basis: 'finding', figure: true })
    expect(held({}).upperK).toBeGreaterThan(2.4)
    // Read worse since: that is what counts.
    const worse = judge([resistance({ sideAUohm: 80, conductorUohm: 20 })])
    const later = carriedK({ ...worse, limitK: undefined, visits: [...worse.visits, visit] }, { held: true, foundRatio: 2.4, foundAtMs: NOW_MS - DAY_MS }, NOW_MS, defaultPolicy)
    expect(later.upperK).toBeGreaterThan(4)
    // A picture shows the mean of a splice; of one withdrawn or of another ratio nothing is left.
    expect(held({ source: 'infrared' }).figure).toBe(false)
    expect(held({}, NOW_MS - 2 * DAY_MS).figure).toBe(false)
    expect(held({ sides: [] }).figure).toBe(false)
  })

  it('of a held finding that the splice’s own figure counts already is that figure’s: one figure everywhere', () => {
    const assessment = judge([resistance()])
    const shown = { held: true, foundRatio: 2.4 }
    expect(carriedK({ ...assessment, limitK: 2.6 }, shown, NOW_MS, defaultPolicy)).toMatchObject({ upperK: 2.6, figure: true })
    // A figure drawn after the finding was withdrawn counts only what is left.
    const without = carriedK({ ...assessment, limitK: 1.1 }, shown, NOW_MS, defaultPolicy)
    expect(without.figure).toBe(false)
    expect(without.upperK).toBeGreaterThan(2.4)
    expect(carriedK(assessment, { held: false, foundRatio: 2.4 }, NOW_MS, defaultPolicy).basis).toBe('read')
  })

  it('of a splice that nobody read is what the policy believes of one, and never that of a sound splice', () => {
    for (const assessment of [null, judge([])]) {
      const found = carriedK(assessment, FREE, NOW_MS, defaultPolicy)
      expect(found).toMatchObject({ basis: 'unread', k: expect.closeTo(0.65, 9) })
      expect(found.upperK).toBeCloseTo(UNREAD_UPPER, 9)
      expect(found.upperK).toBeGreaterThan(1.3)
    }
  })

  it('of a splice whose reading gives no class is no better than unread', () => {
    const assessment = judge([resistance({ sideAUohm: 8, sideBUohm: undefined, barrelElectrodeM: 0.3 })])
    expect(assessment.class).toBe('unknown')
    expect(carriedK(assessment, FREE, NOW_MS, defaultPolicy).upperK).toBeGreaterThanOrEqual(UNREAD_UPPER - 1e-9)
  })
})

const SECTION: SectionOfLine = { conductorCode: 'Drake', subconductors: 1, ratingA: 900, maxOperatingC: 75, elevationM: null }
const JOINT: JointOfLine = { kind: 'full-tension splice', fittingType: null, barrelOdMm: 47.6, k: 0.7, upperK: 0.9 }

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

describe('the bound of the unread splices of a circuit', () => {
  const read = (upperK: number) => ({ upperK, basis: 'read' as const })
  const unread = { upperK: 1.4, basis: 'unread' as const }

  it('is that which 95 of 100 read ones lie under, where that is worse than what the policy believes', () => {
    const hundred = Array.from({ length: 100 }, (_, i) => read((i + 1) / 10))
    expect(withUnreadBound([...hundred, unread]).at(-1)?.upperK).toBe(9.5)
    expect(withUnreadBound([read(0.8), read(2.9), unread]).at(-1)?.upperK).toBe(2.9)
  })

  it('is the policy’s where that is worse, where nobody read any, and no read one is touched', () => {
    expect(withUnreadBound([read(0.8), unread])).toEqual([read(0.8), unread])
    expect(withUnreadBound([unread])).toEqual([unread])
  })
})

describe('one splice read at a ratio that no heat balance takes', () => {
  it('is left out by itself, and no unread one with it', () => {
    const section: SectionOfLine = { conductorCode: 'Drake', subconductors: 1, ratingA: 900, maxOperatingC: 75, elevationM: null }
    const joint = (k: number): JointOfLine => ({ k, upperK: k, kind: 'full-tension splice', fittingType: null, barrelOdMm: 47.6 })
    const drawn = withUnreadBound([{ ...joint(2300), basis: 'read' as const }, ...Array.from({ length: 16 }, () => ({ ...joint(1.4), basis: 'unread' as const }))])
      .map((one) => heatedJoint(one, section, defaultPolicy))
    expect(drawn.filter((one) => one === 'ratio-out-of-range')).toHaveLength(1)
    expect(drawn.filter((one) => typeof one !== 'string')).toHaveLength(16)
  })
})
