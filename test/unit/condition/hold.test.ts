import { describe, expect, it } from 'vitest'
import { defaultPolicy, showClass, withHeldDuties, type Evidence, type PreviousShown } from '@/lib/condition'
import { DAY_MS, judge, NOW_MS, resistance, visual } from './evidence'

const FOUND_MS = NOW_MS - 100 * DAY_MS
const finding = () => resistance({ takenAtMs: FOUND_MS, sideAUohm: 90, survey: 'F', instrument: 'I-1' })
const good = (day: number, fields: Parameters<typeof resistance>[0] = {}) =>
  resistance({ takenAtMs: FOUND_MS + day * DAY_MS, survey: `G${day}`, instrument: 'I-1', ...fields })
const critical: PreviousShown = { class: 'critical', foundAtMs: FOUND_MS }
const shown = (evidence: Evidence[], previous: PreviousShown | null = critical, policy = defaultPolicy) =>
  showClass(previous, judge(evidence, {}, policy), policy)

describe('the class on show', () => {
  it('is what the evidence says where nothing was on show', () => {
    expect(shown([finding()], null)).toMatchObject({ class: 'critical', held: false, foundAtMs: FOUND_MS })
    expect(shown([good(1)], null)).toEqual({ class: 'sound', held: false, foundAtMs: undefined })
  })

  it('rests on the finding where it is degraded too, not on a later look that found nothing', () => {
    const degraded = resistance({ takenAtMs: FOUND_MS, sideAUohm: 30.1, readingId: 501 })
    const seen = visual(['none'], { takenAtMs: FOUND_MS + DAY_MS, readingId: 502 })
    expect(shown([degraded, seen], null)).toMatchObject({ class: 'degraded', held: false, foundAtMs: FOUND_MS, foundReadingIds: [501] })
  })

  it('rises at once', () => {
    expect(shown([finding()], { class: 'sound' })).toMatchObject({ class: 'critical', held: false })
  })

  it('falls freely below urgent', () => {
    expect(shown([good(1)], { class: 'degraded' })).toMatchObject({ class: 'sound', held: false })
  })

  it('is not cleared by one good reading', () => {
    expect(shown([finding(), good(30)])).toMatchObject({ class: 'critical', held: true, foundAtMs: FOUND_MS })
  })

  it('is not cleared by the repeats of one visit', () => {
    const repeats = [1, 2, 3].map((i) => good(30, { takenAtMs: FOUND_MS + 30 * DAY_MS + i * 60_000, survey: 'G' }))
    expect(shown([finding(), ...repeats])).toMatchObject({ class: 'critical', held: true })
  })

  it('is cleared by two independent good readings: another day', () => {
    expect(shown([finding(), good(30), good(31)])).toMatchObject({ class: 'sound', held: false })
  })

  it('is cleared by two independent good readings: another instrument on the same day', () => {
    const second = good(30, { takenAtMs: FOUND_MS + 30 * DAY_MS + 3_600_000, instrument: 'I-2' })
    expect(shown([finding(), good(30), second])).toMatchObject({ class: 'sound', held: false })
  })

  it('holds a finding that was never on show, so that it does not matter how readings came in files', () => {
    expect(shown([finding(), good(2)], null)).toMatchObject({ class: 'critical', held: true, foundAtMs: FOUND_MS })
    expect(shown([finding(), good(2)], { class: 'sound' })).toMatchObject({ class: 'critical', held: true })
    expect(shown([finding(), good(2), good(3)], null)).toMatchObject({ class: 'sound', held: false })
  })

  it('keeps the duties of the held class, not those of the better reading', () => {
    const assessment = judge([finding(), good(2)], {}, defaultPolicy)
    const codes = withHeldDuties(assessment, showClass(null, assessment, defaultPolicy), defaultPolicy).nextActions.map(({ code }) => code)
    expect(codes.slice(0, 5)).toEqual(['call-control-room', 'decide-load-or-outage', 'confirm-reading', 'repair', 'look-at-peak-load'])
    expect(codes).not.toContain('measure-again')
    expect(withHeldDuties(assessment, { class: 'sound', held: false }, defaultPolicy)).toBe(assessment)
  })

  it('leaves what an engineer has cleared cleared, and holds what was found since', () => {
    const cleared: PreviousShown = { class: 'sound', clearedAtMs: FOUND_MS + DAY_MS }
    expect(shown([finding(), good(2)], cleared)).toMatchObject({ class: 'sound', held: false })
    const again = resistance({ takenAtMs: FOUND_MS + 5 * DAY_MS, sideAUohm: 90, survey: 'H', instrument: 'I-1' })
    expect(shown([finding(), again, good(9)], cleared)).toMatchObject({ class: 'critical', held: true })
  })

  it('is not cleared by readings of one side only', () => {
    const one = { sideBUohm: undefined }
    expect(shown([finding(), good(30, one), good(31, one)])).toMatchObject({ class: 'critical', held: true })
  })

  it('is not cleared by readings on the barrel: the finding itself still stands', () => {
    const onBarrel = { sideAUohm: 8.2 }
    expect(shown([finding(), good(30, onBarrel), good(31, onBarrel)])).toMatchObject({ class: 'critical', held: false })
  })

  it('is not cleared by readings from before the finding: undoing an import lowers nothing', () => {
    expect(shown([good(-400), good(-200)])).toMatchObject({ class: 'critical', held: true })
  })

  it('is not cleared where a bad reading came between', () => {
    expect(shown([finding(), good(10), good(20, { sideAUohm: 90 }), good(30)])).toMatchObject({ class: 'critical', held: true })
  })

  it('is not cleared by a milder policy', () => {
    const mild = { ...defaultPolicy, edges: { watch: 5, degraded: 6, urgent: 7, critical: 8 } }
    expect(judge([finding()], {}, mild).class).toBe('sound')
    expect(shown([finding()], critical, mild)).toMatchObject({ class: 'critical', held: true })
  })

  it('is not cleared by losing all evidence', () => {
    expect(shown([])).toMatchObject({ class: 'critical', held: true })
  })

  it('falls from critical to urgent first where only critical is cleared', () => {
    const urgent = { sideAUohm: 46 }
    expect(shown([finding(), good(30, urgent), good(31)])).toMatchObject({ class: 'urgent', held: true, foundAtMs: FOUND_MS + 30 * DAY_MS })
    expect(shown([finding(), good(30, urgent), good(31, urgent)])).toMatchObject({ class: 'urgent', held: false })
  })

  it('holds urgent from broken strands after a repair until two readings or an engineer clear it', () => {
    const repaired = [visual(['broken-strands'], { takenAtMs: FOUND_MS }), good(30, { afterRepair: true })]
    expect(shown(repaired, { class: 'urgent', foundAtMs: FOUND_MS })).toMatchObject({ class: 'urgent', held: true })
    expect(shown([...repaired, good(40)], { class: 'urgent', foundAtMs: FOUND_MS })).toMatchObject({ class: 'sound', held: false })
  })

  it('asks for as many readings as the policy says', () => {
    const three = { ...defaultPolicy, hold: { ...defaultPolicy.hold, independentReadings: 3 } }
    expect(shown([finding(), good(30), good(31)], critical, three)).toMatchObject({ held: true })
    expect(shown([finding(), good(30), good(31), good(32)], critical, three)).toMatchObject({ class: 'sound' })
  })
})

describe('the finding that holds a class', () => {
  const bad = (day: number, sideAUohm: number) => resistance({ takenAtMs: FOUND_MS + day * DAY_MS, sideAUohm, survey: `B${day}`, instrument: 'I-1' })

  it('is the governing side where the evidence itself says the class: 90 over 21.5 is 4.19', () => {
    const one = finding()
    expect(shown([one], null)).toMatchObject({ foundAtMs: FOUND_MS, foundReadingIds: [one.readingId] })
    expect(shown([one], null).foundRatio).toBeCloseTo(4.186, 3)
  })

  it('keeps its ratio, date and reading under better readings, under no evidence at all and from one assessment to the next', () => {
    const one = finding()
    const first = shown([one], null)
    const held = { foundAtMs: FOUND_MS, foundRatio: first.foundRatio, foundReadingIds: [one.readingId], held: true }
    expect(shown([one, good(30)], first)).toMatchObject(held)
    expect(shown([], shown([one, good(30)], first))).toMatchObject(held)
  })

  it('is the newest of several as bad', () => {
    const again = bad(20, 70)
    expect(shown([finding(), good(10), again, good(30)])).toMatchObject({ held: true, foundAtMs: FOUND_MS + 20 * DAY_MS, foundReadingIds: [again.readingId] })
  })

  it('is what was seen, with its own date, where broken strands alone make the class', () => {
    const seen = visual(['broken-strands'], { takenAtMs: FOUND_MS + 3 * DAY_MS })
    const found = shown([good(1), seen], null)
    expect(found).toMatchObject({ class: 'urgent', held: false, foundAtMs: FOUND_MS + 3 * DAY_MS, foundReadingIds: [seen.readingId] })
    expect(found.foundRatio).toBeUndefined()
  })
})

describe('an engineer’s decision', () => {
  const decide = (decision: Parameters<typeof showClass>[3], previous: PreviousShown = critical) =>
    showClass(previous, judge([finding(), good(30)]), defaultPolicy, decision)

  it('clears it with name and reason', () => {
    expect(decide({ engineer: 'R. Vance', reason: 'Cut out and replaced.', decidedAtMs: NOW_MS }))
      .toMatchObject({ class: 'sound', held: false })
  })

  it('does not without a name, without a reason, or from before the finding', () => {
    expect(decide({ engineer: ' ', reason: 'Replaced.', decidedAtMs: NOW_MS }).held).toBe(true)
    expect(decide({ engineer: 'R. Vance', reason: '', decidedAtMs: NOW_MS }).held).toBe(true)
    expect(decide({ engineer: 'R. Vance', reason: 'Replaced.', decidedAtMs: FOUND_MS - 1 }).held).toBe(true)
  })

  it('is the only way where nobody knows when the finding was measured', () => {
    const undated: PreviousShown = { class: 'critical' }
    expect(showClass(undated, judge([good(30), good(31)]), defaultPolicy).held).toBe(true)
    expect(decide({ engineer: 'R. Vance', reason: 'Replaced.', decidedAtMs: NOW_MS }, undated).held).toBe(false)
  })

  it('never shows better than the evidence', () => {
    const decision = { engineer: 'R. Vance', reason: 'Mistaken.', decidedAtMs: NOW_MS }
    expect(showClass(critical, judge([finding()]), defaultPolicy, decision)).toMatchObject({ class: 'critical', held: false })
  })
})
