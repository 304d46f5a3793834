import { describe, expect, it } from 'vitest'
import { explain, explainInfrared, FLAG_WORDS, type Evidence } from '@/lib/condition'
import { CLASS_SENTENCES } from '@/lib/condition/sentences-class'
import { INFRARED_SENTENCES } from '@/lib/condition/sentences-infrared'
import { OUTLOOK_SENTENCES } from '@/lib/condition/sentences-outlook'
import { actionSentence } from '@/lib/condition/words'
import { READING_SENTENCES } from '@/lib/condition/sentences-reading'
import { infrared, judge, NOW_MS, resistance, visual, YEAR_MS } from './evidence'

const inUs = { unitSystem: 'us', timeZone: 'America/Denver' } as const

/** One assessment for every reason that the engine can give. */
const CASES: [string, Evidence[], Parameters<typeof judge>[1]?][] = [
  ['nothing', []],
  ['two sides', [resistance()]],
  ['a critical one', [resistance({ sideAUohm: 90 })]],
  ['a jump', [resistance({ takenAtMs: NOW_MS - 59 * 86_400_000, sideAUohm: 13 }), resistance({ sideAUohm: 65, survey: 'S2' })]],
  ['a doubtful one', [resistance({ sideAUohm: 22 })]],
  ['repeats over two spans', [resistance({ electrodeSpanM: 0.5, takenAtMs: NOW_MS - 1000 }), resistance(), resistance()]],
  ['repeats that contradict', [resistance({ sideAUohm: 64.5, takenAtMs: NOW_MS - 1000 }), resistance()]],
  ['one side', [resistance({ sideBUohm: undefined })]],
  ['a conductor that cannot be', [resistance({ conductorUohm: undefined, conductorUnusable: '-5' })]],
  ['a dead-end', [resistance({ sideBUohm: undefined })], { kind: 'dead-end' }],
  ['a tap', [resistance()], { kind: 't-tap' }],
  ['an automatic', [resistance()], { fittingType: 'automatic' }],
  ['a shield-wire splice', [resistance()], { kind: 'shield-wire splice' }],
  ['a side from before', [resistance({ takenAtMs: NOW_MS - YEAR_MS }), resistance({ sideBUohm: undefined })]],
  ['two instruments', [resistance({ instrument: 'a' }), resistance({ instrument: 'b', sideAUohm: 60 })]],
  ['live and dead', [resistance({ testCurrent: 'live-ac' }), resistance()]],
  ['a fall', [resistance({ takenAtMs: NOW_MS - YEAR_MS, sideAUohm: 60 }), resistance()]],
  ['uneven sides', [resistance({ sideAUohm: 9.5, sideBUohm: 17, barrelElectrodeM: 0.1 })]],
  ['uneven sides, positions not known', [resistance({ sideAUohm: 9.5, sideBUohm: 17 })]],
  ['findings', [resistance(), visual(['bulging', 'slip', 'broken-strands'])]],
  ['no finding', [resistance(), visual(['none'])]],
  ['windy', [infrared({ windMS: 5 })]],
  ['a picture that tells a ratio', [infrared({ spliceTempC: 50 })]],
  ['a warm one that tells no ratio', [infrared({ spliceTempC: 52, conductorTempC: 42, distanceM: 200 })]],
  ['a cool one', [infrared({ spliceTempC: 30 })]],
  ['a picture in wind that its conductor shows', [infrared({ windMS: undefined, conductorTempC: 28, spliceTempC: 40, lineCurrentA: 1000, current30minA: 1000 })]],
  ['a picture at too little load', [infrared({ lineCurrentA: 200, current30minA: 200, conductorTempC: 22.2, spliceTempC: 22 })]],
  ['infrared that agrees', [resistance(), infrared({ spliceTempC: 34 })]],
  ['infrared that would lower a class', [resistance({ sideAUohm: 29, sideBUohm: 29 }), infrared({ spliceTempC: 36 })]],
  ['infrared against resistance', [resistance(), infrared({ spliceTempC: 60 })]],
  ['resistance against infrared', [resistance({ sideAUohm: 90, sideBUohm: 80 }), infrared({ spliceTempC: 36 })]],
  ['infrared under one side', [resistance({ sideAUohm: 120, sideBUohm: undefined }), infrared({ spliceTempC: 36 })]],
  ['a flight against the one before', [infrared({ spliceTempC: 80, takenAtMs: NOW_MS - YEAR_MS, survey: 'F0' }), infrared({ spliceTempC: 34 })]],
  ['a picture that two visits settled', [
    infrared({ spliceTempC: 70, takenAtMs: NOW_MS - 3 * YEAR_MS }), resistance({ takenAtMs: NOW_MS - YEAR_MS, survey: 'S0' }), resistance(),
  ]],
  ['a limit under the peak', [resistance({ sideAUohm: 35 })], { expectedPeakA: 880, postContingencyA: 890, voltageKv: 230 }],
  ['a growing side', [0, 1, 2, 3].map((year) => resistance({ takenAtMs: NOW_MS - (3 - year) * YEAR_MS, sideAUohm: 12 + year * year, sideBUohm: 12 }))],
  ['hot', [infrared({ spliceTempC: 60, windMS: 5 })]],
  ['old', [resistance({ takenAtMs: NOW_MS - 20 * YEAR_MS })]],
  ['undated', [resistance({ takenAtMs: undefined })]],
  ['a hot section', [resistance()], { maxOperatingC: 100 }],
  ['a hot section of an unknown conductor', [resistance()], { maxOperatingC: 100, conductorCode: undefined }],
  ['repaired', [resistance({ takenAtMs: NOW_MS - YEAR_MS }), resistance({ afterRepair: true })]],
  ['on the barrel', [resistance({ sideAUohm: 8 })]],
  ['electrode within the crimp', [resistance({ barrelElectrodeM: 0.02 })]],
  ['electrode within the crimp, bad', [resistance({ sideAUohm: 50, barrelElectrodeM: 0.02 })]],
  ['conductor somewhat off', [resistance({ conductorUohm: 25 })]],
  ['electrode off the barrel', [resistance({ barrelElectrodeM: -0.01 })]],
  ['implausible', [resistance({ sideAUohm: 1.5, sideBUohm: 9000, conductorUohm: 21 })]],
  ['out of range', [resistance({ sideAUohm: 0, conductorBUohm: -3 })]],
  ['no conductor reading', [resistance({ conductorUohm: undefined })]],
  ['no conductor at all', [resistance({ conductorUohm: undefined })], { conductorCode: undefined }],
  ['conductor readings that differ', [resistance({ conductorBUohm: 30 })]],
  ['wrong code word', [resistance({ conductorUohm: 13.6, sideAUohm: 9, sideBUohm: 9 })]],
  ['a conductor reading that cannot be', [resistance({ conductorUohm: 80, sideAUohm: 80 })]],
  ['somewhat off', [resistance({ conductorUohm: 24 })]],
  ['spans differ', [resistance({ conductorSpanM: 0.28 })]],
  ['spans too different', [resistance({ conductorSpanM: 0.9 })]],
  ['no span', [resistance({ electrodeSpanM: undefined })]],
  ['a span that cannot be', [resistance({ electrodeSpanM: 12 })]],
  ['one layer, live', [resistance({ testCurrent: 'live-ac', conductorUohm: 95, sideAUohm: 60, sideBUohm: 60 })],
    { conductorCode: 'Penguin', barrelOdMm: 25 }],
  ['too little current', [resistance({ testCurrent: 'live-ac', lineCurrentA: 3 })]],
  ['a swapped side', [resistance({ sidesDeclared: false })]],
]

describe('an explanation', () => {
  it('says the class, the ratio and the worse side first', () => {
    const text = explain(judge([resistance({ sideAUohm: 95 })]), inUs)
    expect(text.headline).toBe('Critical: side A has 4.42 times the resistance of the same length of conductor.')
    expect(text.reasons[0]).toBe('Side A counts as critical: the chance of a ratio over 2.75 is over 99%, and 20% or more makes it critical.')
    expect(text.nextActions[0]).toBe('Call the control room now.')
    expect(text.nextActions).toContain('Repair within 72 hours.')
  })

  it('says electrically sound, never sound alone', () => {
    expect(explain(judge([resistance()]), inUs).headline).toMatch(/^Electrically sound: side B has 0\.75 times/)
  })

  it('leads with the chance that decides where the ratio by itself reads as another class', () => {
    const of = (sideBUohm: number) => explain(judge([resistance({ sideBUohm })]), inUs).headline
    // 28 over 21.5 is 1.302, 39.2 over it 1.823: neither by itself is of the class that its chance makes.
    expect(of(28)).toMatch(/^Watch: side B has 1\.302 times .*; the chance that it is over 1\.30, where degraded begins, is \d\d%\.$/)
    expect(of(39.2)).toMatch(/^Urgent: side B has 1\.82 times .*; a chance of \d\d% that it is over 1\.85 makes it urgent\.$/)
    expect(of(45)).toMatch(/^Urgent: side B has 2\.09 times the resistance of the same length of conductor\.$/)
  })

  it('says what is not known', () => {
    expect(explain(judge([]), inUs).headline).toBe('Not known: no usable resistance reading.')
    expect(explain(judge([resistance({ sideAUohm: 8.2 })]), inUs).headline).toBe('Not known: an interface is not proved.')
  })

  it('says in every report that the mechanical state does not show', () => {
    for (const [, evidence, facts] of CASES) {
      expect(explain(judge(evidence, facts), inUs).reasons.at(-1)).toContain('say nothing of the mechanical state')
    }
  })

  it('speaks the user’s units', () => {
    const assessment = judge([resistance({ conductorUohm: undefined })])
    expect(explain(assessment, inUs).reasons.join(' ')).toContain('Drake over 12.0 in at 68.0 °F is taken as 21.9 µΩ')
    expect(explain(assessment, { unitSystem: 'metric' }).reasons.join(' ')).toContain('Drake over 305 mm at 20.0 °C')
  })

  it('gives the range of the ratio only where it straddles an edge', () => {
    expect(explain(judge([resistance({ sideAUohm: 22 })]), inUs).reasons.join(' '))
      .toContain('nine times in ten the true ratio lies between')
    expect(explain(judge([resistance({ sideAUohm: 12, sideBUohm: 12 })]), inUs).reasons.join(' ')).not.toContain('nine times in ten')
  })

  it('says that a class is held, and what clears it', () => {
    const text = explain(judge([resistance()]), { ...inUs, shown: { class: 'critical', held: true, foundAtMs: Date.UTC(2026, 2, 14, 16), foundRatio: 4.42 } })
    expect(text.headline).toMatch(/^Critical, held: ratio 4\.42 of 14 Mar 2026 is not cleared\. The evidence now says electrically sound/)
    expect(text.flags[0]?.code).toBe('held')
    expect(text.nextActions[0]).toBe('Take a second independent reading, or have an engineer decide with a reason.')
  })

  it('gives each flight a sentence of its own, with its date and load, the newest first', () => {
    const flights = [
      infrared({ takenAtMs: Date.UTC(2020, 6, 15, 15), survey: 'F1', windMS: 5, lineCurrentA: 812, current30minA: 812 }),
      infrared({ takenAtMs: Date.UTC(2023, 3, 19, 15), survey: 'F2', lineCurrentA: 155, current30minA: 155 }),
    ]
    const noTable = { conductorCode: undefined }
    expect(explain(judge(flights, noTable), inUs).reasons.filter((text) => text.startsWith('Infrared'))).toEqual([
      'Infrared on 19 Apr 2023, at 155 A (17% of rating), proves nothing of health: too little load.',
      'Infrared on 15 Jul 2020, at 812 A (90% of rating), proves nothing of health: too much wind.',
    ])
    const stormy = judge([infrared({ windMS: 9, lineCurrentA: 155, current30minA: 155 })], noTable)
    expect(explain(stormy, inUs).reasons.join(' ')).toMatch(/proves nothing of health: (too little load and strong wind|strong wind and too little load)\./)
    const pair = [infrared({ windMS: 5 }), infrared({ takenAtMs: NOW_MS - 60_000, distanceM: 50 })]
    expect(judge(pair).reasons.filter(({ code }) => code === 'infrared-inconclusive')).toMatchObject([{ values: { count: 2 } }])
  })

  it('spells and measures as the reader does', () => {
    const hot = judge([resistance()], { maxOperatingC: 110, conductorCode: undefined })
    const us = explain(hot, inUs).reasons.join(' ')
    expect(us).toContain('an off-center crimp')
    expect(us).toContain('may run at 230 °F')
    expect(us).toContain('Above 212 °F even they')
    expect(us).not.toContain('°C')
    const metric = explain(hot, { unitSystem: 'metric' }).reasons.join(' ')
    expect(metric).toContain('an off-centre crimp')
    expect(metric).toContain('may run at 110 °C')
    expect(metric).not.toMatch(/°F|[{}]/)
    expect(explain(judge([resistance(), visual(['discolouration'])]), inUs).reasons.join(' ')).toContain('found discoloration')
  })

  it('names no side where nobody noted which is which', () => {
    const one = explain(judge([resistance({ sideAUohm: 32, sideBUohm: undefined, sidesDeclared: false })]), inUs)
    expect(one.headline).toContain('the side read has 1.49 times')
    expect(one.reasons.join(' ')).toContain('One side is not measured, and nobody noted which')
    expect(one.reasons.join(' ')).not.toMatch(/Side B/)
    const fell = explain(judge([
      resistance({ takenAtMs: NOW_MS - YEAR_MS, sideAUohm: 15, sideBUohm: 60, sidesDeclared: false }), resistance({ sidesDeclared: false }),
    ]), inUs).reasons.join(' ')
    expect(fell).toContain('The worse side read 2.79 on 1 Sep 2025 and 0.75 on 1 Sep 2026, without a repair between')
  })

  it('does not call a side unmeasured that was read and is not used', () => {
    const text = explain(judge([resistance({ sideAUohm: 8 })]), inUs)
    expect(text.reasons.join(' ')).not.toContain('is not measured')
    expect(text.nextActions).toEqual(['Repeat the reading with the electrodes set anew.'])
  })

  it('says by when in months and years, to the day', () => {
    expect(actionSentence({ code: 'measure-again', withinDays: 183 })).toBe('Measure again within 6 months.')
    expect(actionSentence({ code: 'repair-in-outage', withinDays: 365 })).toBe('Repair in the next planned outage, at the latest within 1 year.')
    expect(actionSentence({ code: 'repair', withinDays: 30 })).toBe('Repair within 30 days.')
    expect(actionSentence({ code: 'measure-again', withinDays: 100 })).toBe('Measure again within 100 days.')
  })

  it('names what a new splice reads with these electrode positions', () => {
    const reasons = explain(judge([resistance({ barrelElectrodeM: 0.1524 })], { barrelLengthMm: 500 }), inUs).reasons.join(' ')
    expect(reasons).toContain('a new splice reads about 0.68')
  })

  it('defers to code, employer and a qualified person', () => {
    expect(explain(judge([resistance()]), inUs).caution).toContain('follow the applicable code')
  })

  describe.each(CASES)('of %s', (_name, evidence, facts) => {
    const assessment = judge(evidence, facts)
    const text = explain(assessment, inUs)
    const all = [text.headline, ...text.reasons, ...text.nextActions, ...text.flags.map((flag) => flag.text)]

    it('has a sentence for every reason, flag and action', () => {
      const sentences = { ...CLASS_SENTENCES, ...READING_SENTENCES, ...INFRARED_SENTENCES, ...OUTLOOK_SENTENCES }
      for (const { code } of assessment.reasons) expect(sentences[code], code).toBeDefined()
      expect(text.flags.map(({ code }) => code)).toEqual(assessment.flags)
      for (const sentence of all) expect(sentence).toMatch(/^[A-Z0-9].*[.?]$/)
    })

    it('has no holes and no statistician’s or forbidden words', () => {
      for (const sentence of all) {
        expect(sentence).not.toMatch(/undefined|NaN|not known times|null|\[object/)
        expect(sentence).not.toMatch(/posterior|prior\b|likelihood|sigma|\bsafe\b|OK to energi[sz]e/i)
      }
    })
  })

  it('says how near a splice stands to the class above its own, and nothing where it is far from it', () => {
    const found = [...Array(80).keys()].map((i) => judge([resistance({ sideAUohm: 20 + i * 0.5 })]))
    for (const assessment of found) {
      const { class: shown, reasons } = assessment
      const rule = reasons.find(({ code }) => code === 'class-rule')
      const next = shown === 'watch' ? 'degraded' : shown === 'degraded' ? 'urgent' : shown === 'urgent' ? 'critical' : null
      const chance = next && (assessment.sides.find(({ side }) => side === assessment.governingSide)?.pOver[next] ?? NaN)
      expect([rule?.values.nextClass, rule?.values.nextChance]).toEqual(chance !== null && chance >= 0.05 ? [next, chance] : [undefined, undefined])
    }
    const near = found.find(({ reasons }) => reasons.some(({ values }) => values.nextClass === 'critical'))
    expect(near && explain(near, { unitSystem: 'metric' }).reasons[0]).toMatch(/The chance of a ratio over 2\.75 is 1?\d%: 20% or more would make it critical\.$/)
  })

  it('covers every sentence that there is', () => {
    const given = new Set(CASES.flatMap(([, evidence, facts]) => judge(evidence, facts).reasons.map(({ code }) => code)))
    const withPolicyRow = ['edges-of-section', 'new-splice-reads']
    const every = [...Object.keys(CLASS_SENTENCES), ...Object.keys(READING_SENTENCES)]
    expect(every.filter((code) => !given.has(code) && !withPolicyRow.includes(code))).toEqual([])
  })

  it('says the edge of a section that has its own beside a ratio that the usual edges call milder', () => {
    const hot = explain(judge([resistance({ sideBUohm: 28 })], { maxOperatingC: 100, conductorCode: undefined }), inUs).headline
    expect(hot).toMatch(/^Urgent: side B has 1\.\d\d times .*; on this section urgent begins at 1\.22\.$/) // the policy's edge above 75 °C
    expect(explain(judge([resistance({ sideBUohm: 45 })]), inUs).headline).not.toContain('on this section')
    // Edges that are computed for conductor and barrel have no end of digits.
    const computed = explain(judge([resistance({ sideBUohm: 28 })], { maxOperatingC: 100 }), inUs)
    expect(computed.headline).toMatch(/on this section urgent begins at 1\.\d\d\.$/)
    expect([computed.headline, ...computed.reasons].join(' ')).not.toMatch(/\d\.\d{5}/)
  })

  it('asks to measure again by the day that the engine reckoned, and by no other', () => {
    const assessment = judge([resistance()])
    const day = new Date(assessment.nextReadingDueMs ?? NaN).getUTCFullYear()
    expect(explain(assessment, { unitSystem: 'metric' }).nextActions).toContainEqual(expect.stringMatching(new RegExp(`^Measure again by \\d+ \\w+ ${day}\\.$`)))
    expect(explain({ ...assessment, nextReadingDueMs: undefined }, inUs).nextActions).toContainEqual(expect.stringMatching(/^Measure again within \d+ years?\.$/))
  })

  it('has words for every flag', () => {
    for (const text of Object.values(FLAG_WORDS)) expect(text.length).toBeGreaterThan(10)
  })
})

describe('an infrared picture in words', () => {
  const [note] = judge([infrared({ spliceTempC: 58, windMS: 5 })]).infrared

  it('gives differences, causes, criteria and their caution', () => {
    if (!note) throw new Error('no picture')
    const text = explainInfrared(note, inUs)
    expect(text.text).toBe(
      '1 Sep 2026 09:00 MDT, at 600 A (67% of rating): splice 136.4 °F, 28.8 °F hotter than its conductor, 68.4 °F hotter than the air.',
    )
    expect(text.inconclusive).toBe('Hot, though no measure of how bad: too much wind.')
    expect(explainInfrared({ ...note, hot: false }, inUs).inconclusive).toBe('Proves nothing of health: too much wind.')
    expect(text.criteria[0]).toEqual({
      text: 'Over a similar component by more than 27 °F: Major discrepancy; repair immediately.', source: 'ANSI/NETA ATS-2003, Table 100.18',
    })
    expect(text.caution).toContain('not made for splices: a good conductor stands 54 to 90 °F over the air')
  })

  it('gives the criteria in °C to whoever reads metric units', () => {
    if (!note) throw new Error('no picture')
    expect(explainInfrared(note, { unitSystem: 'metric' }).criteria.map(({ text }) => text.split(':')[0]))
      .toEqual(['Over a similar component by more than 15 °C', 'Over the air by 20 to 40 °C'])
  })

  it('carries a difference to the rating by rule of thumb where the heat balance does not count', () => {
    if (!note) throw new Error('no picture')
    // 16 K and 38 K at two thirds of the rating: times 2.25 by the square, 1.91 and 2.44 by powers of 1.6 and 2.2.
    expect(explainInfrared(note, { unitSystem: 'metric' }).atRating).toBe(
      'At the rating, by the square of the current: about 36 °C over its conductor (31 to 39 °C by other powers) and about 86 °C over the air '
      + '(73 to 93 °C by other powers); in wind of 1 m/s some 2.1 times that, by a table from memory. A rule of thumb, not the heat balance.',
    )
    expect(explainInfrared({ ...note, k: 2, inconclusive: [] }, inUs).atRating).toBe('')
    expect(explainInfrared({ ...note, loadShare: 0.2 }, inUs).atRating).toBe('')
  })

  it('reads nothing from the table under one degree, and says so', () => {
    const [cool] = judge([infrared({ spliceTempC: 20.4, conductorTempC: 23 })]).infrared
    if (!cool) throw new Error('no picture')
    const text = explainInfrared(cool, inUs)
    expect(text.text).toContain('4.7 °F cooler than its conductor, 0.7 °F hotter than the air')
    expect(text).toMatchObject({
      criteria: [], caution: '', underTable: 'The published table begins at a difference of 1.8 °F: nothing is read from it.',
    })
  })
})
