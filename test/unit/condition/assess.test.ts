import { describe, expect, it } from 'vitest'
import { assess, conductorByCode, CONDITION_CLASSES, defaultPolicy, expectedUohm, explain, showClass } from '@/lib/condition'
import { carriedK } from '@/lib/condition/loading/carried-k'
import { RATIO_AT_LEAST, whyNoLimit } from '@/lib/condition/no-limit'
import { actionCodes, DAY_MS, DRAKE, infrared, judge, NOW_MS, reasonCodes, reasonOf, resistance, visual, YEAR_MS } from './evidence'

describe('the class of a splice', () => {
  it('is unknown where nothing was measured, with the shares of what is believed before measuring', () => {
    const assessment = judge([])
    expect(assessment).toMatchObject({ class: 'unknown', confidence: 'low', sides: [], readingCount: 0 })
    expect(assessment.ratio).toBeUndefined()
    expect(assessment.shares.sound).toBeCloseTo(0.76361, 4)
    expect(actionCodes(assessment)).toEqual(['measure-resistance'])
  })

  it('is that of the worse side', () => {
    const assessment = judge([resistance({ sideAUohm: 15, sideBUohm: 45 })])
    expect(assessment).toMatchObject({ class: 'urgent', governingSide: 'B' })
    expect(assessment.ratio).toBeCloseTo(45 / 21.5, 12)
    expect(assessment.sides.map(({ class: own }) => own)).toEqual(['sound', 'urgent'])
  })

  it('goes by chance and not by the ratio alone: 1.78 at a small resistance is degraded, a little more is urgent', () => {
    const at = (k: number) => judge([resistance({ sideAUohm: 12 * k, sideBUohm: 9, conductorUohm: 12 })],
      { conductorCode: undefined }).class
    expect(at(1.79)).toBe('degraded')
    expect(at(1.83)).toBe('urgent')
  })

  it('takes what is believed and keeps what the reading alone says for the working', () => {
    const [side] = judge([resistance({ sideAUohm: 16, sideBUohm: undefined, conductorUohm: 12 })], { conductorCode: undefined }).sides
    expect(side?.pOver.degraded).toBeCloseTo(0.573, 3)
    expect(side?.pOverMeasured.degraded).toBeCloseTo(0.63, 3)
  })

  it('carries engine and policy version', () => {
    expect(judge([resistance()], {}, { ...defaultPolicy, version: 7 })).toMatchObject({ engineVersion: '10.0', policyVersion: 7 })
  })

  it('has shares that sum to 1', () => {
    const { shares } = judge([resistance({ sideBUohm: 30 })])
    expect(Object.values(shares).reduce((a, b) => a + b)).toBeCloseTo(1, 12)
  })

  it('is the same whatever the order of the evidence', () => {
    const evidence = [resistance({ takenAtMs: NOW_MS - YEAR_MS }), resistance({ sideAUohm: 30 }), visual(['bulging'])]
    expect(judge([...evidence].reverse()).class).toBe(judge(evidence).class)
    expect(judge([...evidence].reverse()).ratio).toBe(judge(evidence).ratio)
  })
})

describe('one side missing', () => {
  // 'Both sides measured' means all interfaces of the kind, and what is incomplete is never sound: common practice, no source.
  it('takes the known side where it is worse than sound, low confidence, and asks for the other; nothing is assumed of it', () => {
    expect(judge([resistance({ sideAUohm: 32, sideBUohm: undefined })])).toMatchObject({ class: 'degraded', confidence: 'low', flags: ['partial'] })
    const assessment = judge([resistance({ sideBUohm: undefined })])
    expect(assessment).toMatchObject({ class: 'unknown', confidence: 'low', flags: ['partial'], nextReadingDueMs: undefined })
    expect(explain(assessment, { unitSystem: 'metric' }).headline).toBe('Not known: an interface is not measured.')
    expect(explain(assessment, { unitSystem: 'metric' }).reasons[0]).toMatch(/^Side A reads 0\.\d\d, but the other interface is not measured, so the splice is not called sound\.$/)
    expect(actionCodes(assessment)).toContain('measure-other-side')
    expect(reasonOf(assessment, 'one-side-missing')?.values.side).toBe('B')
  })

  it('takes the side that the newest visit lacks from an earlier one', () => {
    const assessment = judge([
      resistance({ takenAtMs: NOW_MS - YEAR_MS, sideAUohm: 14, sideBUohm: 30 }), resistance({ sideAUohm: 15, sideBUohm: undefined,
        survey: 'S2' }),
    ])
    expect(assessment).toMatchObject({ class: 'degraded', governingSide: 'B' })
    expect(assessment.flags).not.toContain('partial')
    expect(reasonCodes(assessment)).toContain('side-from-earlier')
  })

  it('takes nothing from an earlier visit where the sides were not declared', () => {
    const assessment = judge([
      resistance({ takenAtMs: NOW_MS - YEAR_MS, sideBUohm: 30, sidesDeclared: false }), resistance({ sideBUohm: undefined, survey: 'S2' }),
    ])
    expect(assessment.flags).toContain('partial')
    expect(assessment.class).toBe('unknown')
  })
})

describe('interfaces by kind', () => {
  it('two legs of a tap are never all of it', () => {
    const assessment = judge([resistance()], { kind: 't-tap' })
    expect(assessment.flags).toContain('partial')
    expect(actionCodes(assessment)).toContain('measure-all-legs')
  })

  it('one reading of a bolted pad is all of it', () => {
    expect(judge([resistance({ sideBUohm: undefined })], { kind: 'bolted pad' }).flags).toEqual([])
  })

  it('an automatic splice is not judged by a ratio', () => {
    const assessment = judge([resistance({ sideAUohm: 200 })], { fittingType: 'Automatic splice 795' })
    expect(assessment).toMatchObject({ class: 'unknown', flags: ['not-assessed-by-ratio'] })
    expect(assessment.nextActions).toEqual([])
  })

  it('a shield-wire splice is not judged by a ratio, but broken strands make it urgent', () => {
    expect(judge([resistance()], { kind: 'shield-wire splice' }).class).toBe('unknown')
    expect(judge([visual(['broken-strands'])], { kind: 'shield-wire splice' }).class).toBe('urgent')
  })
})

describe('an interface that did not lie between the electrodes', () => {
  it('is no reading of that side, and the splice is never called sound for the other one', () => {
    const assessment = judge([resistance({ sideAUohm: 8.2 })])
    expect(assessment).toMatchObject({ class: 'unknown', confidence: 'low' })
    expect(assessment.flags).toEqual(['interface-not-proved', 'partial'])
    expect(reasonOf(assessment, 'interface-not-proved')?.values).toMatchObject({ side: 'A', barrelAssumed: false })
    expect(actionCodes(assessment)).toContain('repeat-reading')
  })

  it('leaves a worse class of the other side standing', () => {
    expect(judge([resistance({ sideAUohm: 8.2, sideBUohm: 30 })]).class).toBe('degraded')
  })

  it('is judged against a typical barrel where the barrel is not known', () => {
    const assessment = judge([resistance({ sideAUohm: 8.2 })], { barrelOdMm: undefined })
    expect(reasonOf(assessment, 'interface-not-proved')?.values.barrelAssumed).toBe(true)
  })

  it('is known also where the barrel electrode was not on the barrel', () => {
    expect(reasonCodes(judge([resistance({ barrelElectrodeM: 0 })]))).toContain('electrode-off-barrel')
  })

  it('does not concern the pad of a dead-end', () => {
    expect(judge([resistance({ sideBUohm: 8.2 })], { kind: 'dead-end' }).flags).toEqual([])
    expect(judge([resistance({ sideAUohm: 8.2 })], { kind: 'dead-end' }).flags).toContain('interface-not-proved')
  })

  it('lets an earlier reading of the same side stand in', () => {
    const assessment = judge([resistance({ takenAtMs: NOW_MS - YEAR_MS }), resistance({ sideAUohm: 8.2, survey: 'S2' })])
    expect(assessment.class).toBe('sound')
    expect(assessment.flags).toContain('interface-not-proved')
    expect(assessment.flags).not.toContain('partial')
  })
})

describe('an electrode within the crimp', () => {
  // Drake is 28.13 mm in diameter: a usual barrel of 25 diameters is 703 mm long, and 0.3 of that crimped at each end 211 mm. 0.8 in are 20.3 mm.
  const within = { sideAUohm: 15, sideBUohm: 14, conductorUohm: 21.5, barrelElectrodeM: 0.0203 }

  it('proves no side and calls nothing sound, at low confidence', () => {
    const assessment = judge([resistance(within)])
    expect(assessment).toMatchObject({ class: 'unknown', confidence: 'low', flags: ['interface-not-proved'] })
    expect(reasonOf(assessment, 'electrode-within-crimp')?.values).toMatchObject({ side: 'both', lengthAssumed: true })
    expect(reasonOf(assessment, 'electrode-within-crimp')?.values.crimpedM).toBeCloseTo(0.3 * 25 * 0.02813, 3)
    expect(actionCodes(assessment)).toContain('repeat-reading')
    expect(assessment.everyInterfaceAtMs).toBeUndefined()
    expect(assessment.conclusiveAtMs).toBeUndefined()
  })

  it('keeps a class that is worse than sound, as the least it has, and gives no current for it', () => {
    const assessment = judge([resistance({ ...within, sideAUohm: 43 })])
    expect(assessment).toMatchObject({ class: 'urgent', confidence: 'low', ratio: 2, limit: undefined })
    expect(whyNoLimit(assessment, DRAKE)).toBe(RATIO_AT_LEAST)
    expect(carriedK(assessment, { held: false }, NOW_MS, defaultPolicy)).toMatchObject({ basis: 'unread', figure: false })
  })

  it('goes by the length on record before a usual one, and by the repeat nearest to the mouth', () => {
    const at = (barrelElectrodeM: number, barrelLengthMm?: number) => judge([resistance({ ...within, barrelElectrodeM })], { barrelLengthMm }).class
    expect([at(0.2), at(0.22), at(0.2, 660), at(0.22, 800)]).toEqual(['unknown', 'sound', 'sound', 'unknown'])
    expect(judge([resistance({ ...within, barrelElectrodeM: 0.25 }), resistance({ ...within, barrelElectrodeM: 0.02 })]).class).toBe('unknown')
  })

  it('is not asked where nobody can tell the length, and by a policy that says so', () => {
    expect(judge([resistance(within)], { kind: 'dead-end' }).class).toBe('sound')
    expect(judge([resistance(within)], { kind: 'dead-end', barrelLengthMm: 600 }).class).toBe('unknown')
    expect(judge([resistance(within)], {}, { ...defaultPolicy, side: { ...defaultPolicy.side, crimpedShare: 0 } }).class).toBe('sound')
  })

  it('clears no held class', () => {
    const bad = resistance({ sideAUohm: 65, takenAtMs: NOW_MS - YEAR_MS, survey: 'S0' })
    const good = [resistance({ ...within, instrument: 'one' }), resistance({ ...within, instrument: 'two' })]
    const assessment = judge([bad, ...good])
    expect(assessment.visits.slice(1).map(({ complete }) => complete)).toEqual([false, false])
    expect(showClass({ class: 'critical', foundAtMs: NOW_MS - YEAR_MS }, { ...assessment, class: 'sound' }, defaultPolicy)).toMatchObject({ class: 'critical', held: true })
  })

  it('leaves an earlier reading that proved no less standing, and none that proved less', () => {
    const before = (sideUohm: number) => resistance({ sideAUohm: sideUohm, sideBUohm: sideUohm, takenAtMs: NOW_MS - YEAR_MS, survey: 'S0' })
    const after = judge([before(15.5), resistance(within)])
    expect(after).toMatchObject({ class: 'sound' })
    expect(after.flags).toEqual(['interface-not-proved'])
    expect(judge([before(10), resistance(within)]).class).toBe('unknown')
  })

  it('is never called sound by a picture', () => {
    expect(judge([resistance(within), infrared({ spliceTempC: 38, conductorTempC: 42 })]).class).toBe('unknown')
  })
})

describe('asymmetry', () => {
  const uneven = { sideAUohm: 9.5, sideBUohm: 17 }

  it('makes a watch of two good sides with recorded, equal electrode positions', () => {
    const assessment = judge([resistance({ ...uneven, barrelElectrodeM: 0.25 })])
    expect(assessment).toMatchObject({ class: 'watch', flags: ['asymmetry'] })
    expect(assessment.asymmetry).toBeCloseTo(17 / 9.5, 12)
  })

  it('does not count where nobody recorded the positions', () => {
    const assessment = judge([resistance(uneven)])
    expect(assessment.class).toBe('sound')
    expect(reasonCodes(assessment)).toContain('asymmetry-not-counted')
  })

  it('does not count where the positions of the two sides differ', () => {
    const readings = [
      resistance({ sideAUohm: 9.5, sideBUohm: undefined, barrelElectrodeM: 0.28 }),
      resistance({ sideAUohm: undefined, sideBUohm: 17, barrelElectrodeM: 0.25 }),
    ]
    expect(judge(readings).flags).not.toContain('asymmetry')
  })

  it('adds nothing where a side is already worse than the conductor', () => {
    expect(judge([resistance({ sideAUohm: 9.5, sideBUohm: 26, barrelElectrodeM: 0.25 })]).flags).not.toContain('asymmetry')
  })
})

describe('operating temperature', () => {
  it('up to 75 °C uses the edges of the policy', () => {
    expect(judge([resistance()], { maxOperatingC: 75 })).toMatchObject({ edges: { urgent: 1.85, basis: 'policy' }, flags: [] })
  })

  it('above 75 °C never uses them silently: cautious edges, low confidence, a sentence', () => {
    const assessment = judge([resistance({ sideBUohm: 28 })], { maxOperatingC: 100, conductorCode: undefined })
    expect(assessment).toMatchObject({ class: 'urgent', confidence: 'low', flags: ['edges-default-above-75'] })
    expect(assessment.edges).toMatchObject({ watch: 1, urgent: 1.22, critical: 1.81 })
    expect(reasonCodes(assessment)).toContain('edges-makeshift')
    expect(actionCodes(assessment)).toContain('set-edges')
  })

  it('above 75 °C computes them for conductor, barrel and temperature, and says so', () => {
    const assessment = judge([resistance({ sideBUohm: 28 })], { maxOperatingC: 100 })
    expect(assessment).toMatchObject({ class: 'urgent', flags: ['edges-computed'], edges: { basis: 'computed', upToC: 100, watch: 1 } })
    expect(assessment.edges.urgent).toBeCloseTo(1.22, 2)
    expect(explain(assessment, { unitSystem: 'metric' }).reasons.join(' ')).toContain(
      'This section may run at 100 °C: the class edges are computed for Drake and its barrel, urgent over 1.22 and critical over 1.81, '
      + 'no later than where the splice would pass 93 °C and 125 °C at the current that brings the conductor to 100 °C in rating weather (air of 25 °C).',
    )
    expect(actionCodes(assessment)).not.toContain('set-edges')
  })

  it('so hot that a splice like its conductor passes the limit has no edges of its own', () => {
    expect(judge([resistance()], { maxOperatingC: 150 })).toMatchObject({ flags: ['edges-default-above-75'], edges: { basis: 'policy' } })
  })

  it('keeps a stricter edge of the policy above 75 °C', () => {
    const policy = { ...defaultPolicy, edges: { watch: 0.8, degraded: 0.9, urgent: 1.1, critical: 1.5 } }
    expect(judge([resistance()], { maxOperatingC: 100 }, policy).edges).toMatchObject({ watch: 0.8, urgent: 1.1, critical: 1.5 })
  })

  it('takes the row of the policy for the next higher temperature', () => {
    const row = { watch: 1, degraded: 1.2, urgent: 1.4, critical: 2 }
    const policy = { ...defaultPolicy, edgesByMaxOperatingC: [{ maxOperatingC: 125, ...row, urgent: 1.3 }, { maxOperatingC: 100, ...row }] }
    const assessment = judge([resistance()], { maxOperatingC: 90 }, policy)
    expect(assessment).toMatchObject({ edges: { urgent: 1.4, basis: 'section' }, flags: [] })
    expect(reasonCodes(assessment)).toContain('edges-of-section')
    expect(judge([resistance()], { maxOperatingC: 150 }, policy).flags).toContain('edges-default-above-75')
  })
})

describe('age', () => {
  it('drifts up and widens with the years', () => {
    const fresh = judge([resistance()]).sides[0]
    const old = judge([resistance({ takenAtMs: NOW_MS - 5 * YEAR_MS })]).sides[0]
    expect(old?.medianK).toBeGreaterThan(fresh?.medianK ?? 1)
    expect(old?.sdLnK).toBeGreaterThan(fresh?.sdLnK ?? 1)
    expect(old?.ratio).toBe(fresh?.ratio)
  })

  it('is stale after two intervals of its class', () => {
    expect(judge([resistance({ takenAtMs: NOW_MS - 11.9 * YEAR_MS, sideAUohm: 9, sideBUohm: 9 })]).flags).toEqual([])
    const stale = judge([resistance({ takenAtMs: NOW_MS - 12.1 * YEAR_MS, sideAUohm: 9, sideBUohm: 9 })])
    expect(stale).toMatchObject({ flags: ['stale'], confidence: 'low' })
    expect(judge([resistance({ takenAtMs: NOW_MS - 1.1 * YEAR_MS, sideBUohm: 32 })])).toMatchObject({ class: 'degraded', flags: ['stale'] })
  })

  it('is stale without a date', () => {
    expect(judge([resistance({ takenAtMs: undefined })]).flags).toEqual(['stale'])
  })

  it('does not run backwards for a reading in the future', () => {
    const [side] = judge([resistance({ takenAtMs: NOW_MS + YEAR_MS })]).sides
    expect(side?.medianK).toBe(judge([resistance()]).sides[0]?.medianK)
  })
})

describe('after a repair', () => {
  const before = resistance({ takenAtMs: NOW_MS - YEAR_MS, sideAUohm: 90 })

  it('a new series starts and earlier readings and findings no longer count', () => {
    const seen = visual(['broken-strands', 'rust-bleed'], { takenAtMs: NOW_MS - YEAR_MS })
    const assessment = judge([before, seen, resistance({ afterRepair: true, survey: 'R' })])
    expect(assessment).toMatchObject({ class: 'sound', mechanicalFindings: [], readingCount: 3 })
    expect(assessment.visits).toHaveLength(1)
    expect(reasonCodes(assessment)).toContain('since-repair')
  })

  it('all repeats of the proof count', () => {
    const proof = [1, 2, 3].map((i) => resistance({ afterRepair: true, survey: 'R', takenAtMs: NOW_MS - i * 60_000, sideAUohm: 14 + i }))
    expect(judge([before, ...proof]).sides[0]).toMatchObject({ repeats: 3, sideUohm: 16 })
  })

  it('later surveys belong to the new series', () => {
    const later = resistance({ takenAtMs: NOW_MS + YEAR_MS, sideAUohm: 26, survey: 'S9' })
    const assessment = judge([before, resistance({ afterRepair: true, survey: 'R' }), later], {}, defaultPolicy, NOW_MS + YEAR_MS)
    expect(assessment.visits.map(({ survey }) => survey)).toEqual(['R', 'S9'])
    expect(assessment.class).toBe('watch')
  })

  it('an undated proof ends nothing', () => {
    expect(judge([before, resistance({ afterRepair: true, takenAtMs: undefined })]).class).toBe('critical')
  })
})

describe('every flag and kind', () => {
  it('keeps to the classes there are', () => {
    const drake = conductorByCode('Drake')
    const uohm = drake ? expectedUohm(drake, 0.3048, 20) : 0
    for (const k of [0.6, 1.1, 1.5, 2.2, 5]) {
      const assessment = assess({
        facts: DRAKE, evidence: [resistance({ sideAUohm: k * uohm, sideBUohm: uohm / 2, conductorUohm: uohm })],
          policy: defaultPolicy, asOfMs: NOW_MS + DAY_MS,
      })
      expect(CONDITION_CLASSES).toContain(assessment.class)
    }
  })
})
