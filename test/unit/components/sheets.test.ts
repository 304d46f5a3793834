import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import { circuitsText } from '@/components/intake/urgent-words'
import { SpliceSheet } from '@/components/splice/splice-sheet'
import type { UnitSystem } from '@/lib/units/format'
import type { SpliceDetail } from '@/lib/contract/contract'
import { assessment, detail, reading } from '@/test/fixtures/components/samples'

const NOW = Date.parse('2026-11-24T12:00:00Z')
const words = { system: 'us', timeZone: 'America/Denver', letters: { A: 'A', B: 'B', C: 'C' }, nowMs: NOW } as const

/** The words on the sheet, as a person reads them. */
const sheet = (of: SpliceDetail, system: UnitSystem = words.system): string =>
  renderToStaticMarkup(createElement(SpliceSheet, { detail: of, ...words, system }))
    .replace(/<[^>]+>/g, ' ')
    .replace(/&#x27;/g, "'")
    .replace(/\s+/g, ' ')

describe('the sheet of a splice', () => {
  it('opens with the class in words, the confidence and the ratio, and says what next and by when', () => {
    const text = sheet(detail())
    expect(text).toContain('T-B-07')
    expect(text).toMatch(/Critical high confidence/)
    expect(text).toContain('4.30 times its conductor')
    expect(text.indexOf('Call the control room.')).toBeLessThan(text.indexOf(' Why '))
    expect(text).toContain('Due 15 Mar 2026 03:00 MDT, overdue by 8 months.')
    expect(text).toContain('Found 14 Mar 2026 10:26 MDT, 8 months ago. Learned of here 15 Mar 2026 02:00 MDT, 8 months ago.')
  })

  it('says plainly where the rating of its section is not what its conductor carries at its own limit', () => {
    const temperatures = { upper_share: 0.9, at_load: null, no_at_load: null, at_rating: null, no_at_rating: null, edges_at_a: 1_121, conductor_at_rating_c: 88 }
    const text = sheet(detail({ rating_a: 1_010, max_operating_c: 100, temperatures }), 'metric')
    expect(text).toMatch(/To keep in mind.*The rating is 111 A \(10%\) below that\. Ask the rating engineer which holds\./)
    expect(sheet(detail({ rating_a: 1_110, max_operating_c: 100, temperatures }), 'metric')).not.toContain('do not agree in rating weather')
  })

  it('tells on urgent and critical sheets what to do if the line trips, and on no other', () => {
    expect(sheet(detail(), 'us')).toContain('no trial energization before the span STR 45 to 46 of Elm-Oak 1 has been patrolled')
    expect(sheet(detail(), 'metric')).toContain('no trial energisation before the span STR 45 to 46 of Elm-Oak 1 has been patrolled')
    expect(sheet(detail({ class: 'urgent' }))).toContain('If it trips')
    expect(sheet(detail({ class: 'degraded', measured_class: 'degraded' }))).not.toContain('If it trips')
  })

  it('says in one line when a repair was due by its finding, how long that is over, when it was learned of and the date since then', () => {
    const found = {
      found_at: '2026-03-14T16:26:00.000Z', class: 'critical' as const, assessment: assessment({ nextActions: [{ code: 'repair', withinHours: 72 }] }),
    }
    const text = sheet(detail({ ...found, raised_at: '2026-11-23T16:26:00.000Z', read_in_at: '2026-11-23T16:26:00.000Z' }))
    expect(text).toContain('Due 17 Mar 2026 by its finding, overdue by 8 months. Learned of here 23 Nov 2026: from then by 26 Nov 2026 09:26 MST, no date agreed.')
    expect(text).not.toMatch(/response times run|entered 23 Nov/)
  })

  it('says at its head which line and where, before anything of its readings', () => {
    const text = sheet(detail())
    expect(text).toContain('Elm Line, 138 kV, STR 45-46 + 404 ft, phase B')
    expect(text.indexOf('Elm Line, 138 kV')).toBeLessThan(text.indexOf('Learned of here'))
    expect(text.match(/STR 45-46 \+ 404 ft/g)).toHaveLength(1)
  })

  it('asks in Next for a limit while nobody agreed one, on urgent and critical sheets', () => {
    const next = (of: SpliceDetail) => { const text = sheet(of); return text.slice(text.indexOf(' Next '), text.indexOf('Advice only')) }
    expect(next(detail())).toContain('No limit agreed: ask the rating engineer.')
    expect(sheet(detail({ class: 'degraded', measured_class: 'degraded' }))).not.toContain('No limit agreed')
    const limit = {
      id: 4, splice_id: 1, splice: 'T-B-07', circuit_id: 3, circuit: 'Elm-Oak 1', section_id: 1, line_a: 600, mva: null, advised_a: 705, reason: 'Side A', proposed_by: 'P. Proposer',
      proposed_at: '2026-11-20T08:00:00.000Z', review_by: '2026-12-20T08:00:00.000Z', agreed_by: null, agreed_at: null, accepted_by: null, accepted_at: null,
      in_force_from: null, lifted_by: null, lifted_at: null, lifted_why: null, greatest_load_a: null, standing: 'proposed', standing_why: null,
    } as const
    expect(next(detail({ limits: [limit] }))).toContain('No limit agreed yet: 600 A per phase, proposed by P. Proposer, waits for the rating engineer.')
    expect(next(detail({ limits: [{ ...limit, standing: 'agreed', agreed_by: 'R. Engineer', agreed_at: '2026-11-20T09:00:00.000Z' }] }))).not.toContain('No limit agreed')
  })

  it('gives the caution once, where it is decided', () => {
    expect(sheet(detail()).match(/Advice only: follow the applicable code/g)).toHaveLength(1)
  })

  const held = (over: Partial<NonNullable<SpliceDetail['hold']>> = {}) => detail({
    class: 'urgent', measured_class: 'sound', held: true, confidence: 'low', ratio: 2.94, measured_ratio: 0.71,
    hold: {
      found_at: '2026-03-14T16:26:00.000Z', ratio: 2.94, reading_id: 11, survey: 'Spring walk', withdrawn: null, moved: false,
      later: { at: '2026-06-03T16:00:00.000Z', ratio: 0.71, class: 'sound' }, good_readings: 1, needed_readings: 2, apart_h: 20, ...over,
    },
  })

  it('leads a held class with the finding that holds it, then the better reading and what is still needed', () => {
    const text = sheet(held())
    expect(text).toContain('2.94 times its conductor, measured 14 Mar 2026')
    expect(text).not.toContain('low confidence')
    expect(text).toContain(
      'Held urgent by the finding of 14 Mar 2026 (Spring walk), ratio 2.94. A later reading, of 3 Jun 2026, is better: ratio 0.71, by itself sound. '
      + 'Still needed: one more independent good reading of every side (another instrument, or 20 h apart), or a named engineer’s decision with a reason.')
  })

  it('opens Why with the reading that holds the class, and marks it on the axis above the better one', () => {
    const withReading = held()
    const finding = { ...reading(), id: 11, kind: 'resistance' as const, fields: { side_a_uohm: 63.2, side_b_uohm: 16, conductor_uohm: 21.5 } }
    const text = sheet({ ...withReading, readings: [finding], assessment: assessment() })
    const why = text.slice(text.indexOf('Why'))
    expect(why).toMatch(/^Why\s*Urgent by the finding of 14 Mar 2026: side A 63\.2 µΩ, side B 16\.0 µΩ, conductor 21\.5 µΩ, ratio 2\.94 on the worse side\./)
    expect(text).toMatch(/Held finding, 14 Mar 2026\s*, governs until it is cleared\s*2\.94/)
    expect(text).toContain('Ring: the finding that holds the class')
    expect(sheet(held({ reading_id: 99 }))).toContain('Urgent by the finding of 14 Mar 2026: ratio 2.94.')
    expect(sheet(detail())).not.toContain('Held finding')
  })

  it('says why it is held: an undo, a reading taken off, a policy, nothing left, a day nobody noted', () => {
    const undone = sheet(held({ withdrawn: { file_name: 'spring.csv', at: '2026-06-04T16:12:00.000Z' }, later: null, good_readings: 0 }))
    expect(undone).toContain('Held by a reading that was withdrawn on 4 Jun 2026 10:12 MDT by the undo of spring.csv')
    expect(undone).toContain('Still needed: 2 independent good readings')
    expect(undone).not.toContain('one good reading')
    expect(sheet(held({ moved: true }))).toContain('taken off this splice by hand')
    expect(sheet(held({ later: null }))).toContain('By the policy and line data of now the same evidence says sound.')
    expect(sheet({ ...held({ later: null }), measured_class: 'unknown' })).toContain('What counts now gives no usable ratio.')
    expect(sheet(held({ found_at: null }))).toContain('no reading can be shown to be later: a named engineer decides')
  })

  it('tells its history newest first, by day when there is much', () => {
    const at = (hour: number, day = 15) => `2026-03-${day}T${String(hour).padStart(2, '0')}:00:00.000Z`
    const assessed = { kind: 'assessment', confidence: 'high', engine_version: '1.0', policy_version: 2, file_name: null } as const
    const history: SpliceDetail['history'] = [
      { kind: 'decision', at: at(20), engineer: 'R. Castellan', reason: 'Cut out', from: 'critical', to: 'sound', by: 'operator', cause: 'other', cause_text: 'The meter was out of calibration' },
      { ...assessed, at: at(20), class: 'sound', measured_class: 'sound', held: false, ratio: 0.6, infrared_ratio: null, cause: 'engineer' },
      { kind: 'repair', at: at(18), survey: 'Proof', readings: 2 },
      { kind: 'undo', at: at(17), file_name: 'a.csv', readings: 1, by: 'operator' },
      { ...assessed, at: at(16), class: 'critical', measured_class: 'sound', held: true, ratio: 0.6, infrared_ratio: null, cause: 'import', file_name: 'b.csv' },
      { kind: 'told', at: at(9), class: 'critical', by: 'operator', reading_key: 'R-1', survey: 'Walk', withdrawn: false, told_to: 'Desk 2', told_at: at(9) },
      { kind: 'notice', at: at(8), class: 'critical', ratio: 4.42, basis: 'reading', reading_key: 'R-1', survey: 'Walk', withdrawn: false },
    ]
    const text = sheet(detail({ history }))
    const told = text.slice(text.indexOf('History, newest first'), text.indexOf('Last reading'))
    expect(told).toMatch(new RegExp([
      'Engineer’s decision .*R. Castellan: critical no longer stands, now sound. The meter was out of calibration. “Cut out” Noted by operator', 'Repaired before this', 'Import undone',
      'critical, held .*the evidence says sound, ratio 0.60; after an import \\(b.csv\\), policy 2', 'Control room told .*told Desk 2 at .*noted by operator',
      'Urgent notice .*by its own numbers',
    ].join('.*')))
    expect(told).not.toContain('after an engineer’s decision')
    expect(told.match(/15 Mar 2026/g)).toHaveLength(1)
    const many = sheet(detail({ history: [...history, ...[1, 2, 3].map((h) => ({ ...history[6]!, at: at(h, 12) }) as (typeof history)[number])] }))
    const byDay = many.slice(many.indexOf('History, newest first'))
    expect(byDay.match(/15 Mar 2026/g)).toHaveLength(1)
    expect(byDay.match(/11 Mar 2026/g)).toHaveLength(1)
    expect(byDay).toContain('14:00 MDT Engineer’s decision')
    const few = sheet(detail({ history: history.slice(4) }))
    expect(few.slice(few.indexOf('History, newest first')).match(/15 Mar 2026/g)).toHaveLength(3)
  })

  it('names each side by the structure it faces and draws it against the edges', () => {
    const html = renderToStaticMarkup(createElement(SpliceSheet, { detail: detail(), ...words }))
    expect(html).toMatch(/aria-label="Side A, toward STR 45: measured 4\.42, believed 4\.30, between 3\.90 and 4\.75; critical"/)
    expect(html).toContain('Side B, toward STR 46')
    for (const edge of ['1.00', '1.30', '1.85', '2.75']) expect(html).toContain(`>${edge} </tspan>`)
  })

  it("puts the position in the trade's words with coordinates to copy", () => {
    const text = sheet(detail({ phase: 'A', circuit_side: 'left' }))
    expect(text).toContain('STR 45-46 + 404 ft, phase A, left circuit')
    expect(text).toContain('46.200000, -112.100000')
  })

  it('says what is not known and whom to ask', () => {
    const text = sheet(detail({ conductor: null, rating_a: null }))
    expect(text).toContain('Conductor not known: ask engineering')
    expect(text).toContain('Section rating not known: ask engineering')
  })

  it('shows infrared as a secondary note with its reasons to doubt it and the source of each criterion', () => {
    const infrared = [
      {
        readingId: 12,
        takenAtMs: NOW,
        lineCurrentA: 341,
        loadShare: 0.31,
        spliceTempC: 41,
        overConductorK: 6,
        overAmbientK: 18,
        inconclusive: ['low-load'],
        hot: true,
        criteria: [
          {
            column: 'similar component',
            fromK: 3,
            upToK: 15,
            action: 'probable deficiency; repair as time permits',
            source: 'ANSI/NETA Table 100.18',
          },
        ],
      },
    ]
    const text = sheet(detail({ assessment: assessment({ infrared }) }))
    expect(text).toContain('at 341 A (31% of rating): splice 105.8 °F, 10.8 °F hotter than its conductor')
    expect(text).toContain('Hot, though no measure of how bad: too little load.')
    expect(text).toContain('Over a similar component by 5.4 to 27 °F: probable deficiency')
    expect(text).toContain('ANSI/NETA Table 100.18')
    expect(text).toContain('These criteria were not made for splices')
  })

  it('is drawn without an assessment and without readings, and says so', () => {
    const text = sheet(
      detail({
        class: 'unknown',
        measured_class: 'unknown',
        ratio: null,
        assessment: null,
        assessment_text: null,
        assessed_at: null,
        readings: [],
        last_reading_at: null,
      }),
    )
    expect(text).toContain('No reading has reached this splice yet, so nothing is known of its condition.')
    expect(text).toContain('No dated reading.')
    expect(text).not.toMatch(/NaN|undefined|null/)
  })

  it('shows both times of a splice that was read twice, with the older below', () => {
    const text = sheet(detail({ readings: [reading({ id: 1, taken_at: '2021-06-01T00:00:00Z' }), reading({ id: 2 })] }))
    expect(text.indexOf('14 Mar 2026')).toBeLessThan(text.indexOf('31 May 2021'))
    expect(text).toContain('Is a side getting worse?')
  })

  it('never calls a line safe', () => {
    for (const of of [detail(), detail({ class: 'sound', measured_class: 'sound', ratio: 0.7 })])
      expect(sheet(of)).not.toMatch(/\bsafe|OK to energi[sz]e/i)
  })
})

describe('an urgent reading', () => {
  const of = (circuits: { circuit: string; probability: number | null; line_name: string | null }[]) =>
    circuitsText({ circuits: circuits.map((c, i) => ({ circuit_id: i + 1, ...c })) })
  it('names its circuit, or every candidate with how likely it is', () => {
    expect(of([{ circuit: 'Elm-Oak 1', line_name: 'Elm Line', probability: 0.98 }])).toBe('Elm-Oak 1 (Elm Line)')
    expect(
      of([
        { circuit: 'One', line_name: null, probability: 0.6 },
        { circuit: 'Two', line_name: null, probability: 0.4 },
      ]),
    ).toBe('one of One, 60%; Two, 40%')
    expect(of([])).toBe('circuit not known')
  })
})
