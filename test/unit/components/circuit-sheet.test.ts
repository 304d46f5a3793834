import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import { CircuitSheet } from '@/components/circuit/circuit-sheet'
import { CoverageStrip } from '@/components/circuit/coverage-strip'
import type { CurrentLimitJson } from '@/lib/contract/limits'
import { NOTHING_NOTED } from '@/test/fixtures/components/samples'

const NOW = Date.parse('2026-11-24T12:00:00Z')
const words = { system: 'us', timeZone: 'America/Denver', letters: { A: 'A', B: 'B', C: 'C' }, nowMs: NOW } as const

describe('the sheet of a circuit', () => {
  const circuit = {
    id: 3,
    name: 'Elm-Oak 1',
    line_name: 'Elm Line',
    from: 'Elm',
    to: 'Oak',
    voltage_kv: 138,
    region: 'North',
    length_m: 16_093.44,
    counts: { sound: 20, watch: 2, degraded: 0, urgent: 1, critical: 1, unknown: 3 },
    sound_past_re_measure: 6,
    worst_class: 'critical' as const,
    bbox: null,
    sections: [
      {
        id: 1,
        name: 'main',
        from: null,
        to: null,
        conductor: 'Bobolink',
        subconductors: 2,
        rating_a: 1800,
        rating_emergency_a: null,
        max_operating_c: 75,
        elevation_m: null,
        length_m: 16_093.44,
        structure_count: 41,
        span_count: 40,
        lateral_offset_m: null,
        declared_length_m: null,
        last_load: null, expected_peak: { current_a: 700, taken_at: '2026-12-01T00:00:00Z' }, post_contingency: null,
      },
    ],
    unsettled: { urgent: 0, critical: 1, reading_id: 8 },
    unknown: { never_looked_at: 20, inconclusive: 3, passed_by: 9 },
    limits: [],
    splice_limits: [{ section_id: 1, splice_id: 1, splice: 'T-B-07', class: 'critical' as const, held: false, figure: true, line_a: 616.9, mva: 147.4 }],
    crossings: [{ id: 1, line_distance_m: 10, kind: 'road', name: null }],
    phasing: [],
    if_it_trips: NOTHING_NOTED,
  }
  const health = {
    circuit_id: 3,
    circuit: 'Elm-Oak 1',
    counts: circuit.counts,
    splice_count: 27,
    last_surveyed_on: '2026-03-14',
    last_load_a: null,
    limits: { in_force: 0, ask_engineer: 0, lowest_in_force: null, lowest_ask_engineer: null },
    updated_at: '2026-03-15T08:00:00Z',
    worst_splice: { id: 1, splice: 'T-B-07', class: 'critical' as const, ratio: 4.3, position_text: 'STR 45-46 + 404 ft, phase B', own_edge: null },
    past_response: { degraded: 0, urgent: 0, critical: 1 },
    unsettled: circuit.unsettled,
    overdue: { degraded: 0, urgent: 1, critical: 1, longest: { id: 4, splice: 'T-B-11', days: 76, entered_at: '2026-11-12T08:00:00.000Z' } },
    read_in_late: { degraded: 0, urgent: 1, critical: 1, longest_days: 76 },
    coverage: {
      span_count: 40, span_phase_count: 120, covered_span_phases: 120, share: 1, conclusive_span_phases: 0, conclusive_share: 0,
      conclusive_oldest_on: null, conclusive_newest_on: null, conclusive_stale_span_phases: 0, conclusive_stale_share: 0, every_interface_span_phases: 0,
    },
  }
  const html = renderToStaticMarkup(createElement(CircuitSheet, { circuit, health, ...words }))
  const text = html
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ')

  it('opens with its state: the worst class with how many press, then what flows against what limits it, and what was looked at conclusively and when after that', () => {
    expect(text).toMatch(/Elm-Oak 1 .*Critical 1 critical, 1 urgent of 27 splices; \+1 critical, place not settled Against 616 A \(147 MVA\), advised by T-B-07: last load not known; peak 700 A, 84 A over; after contingency not known\. What it may carry/)
    expect(text).toMatch(/How much was looked at 0% looked at conclusively\. 100% looked at, whatever it could show\. Last survey 14 Mar 2026, 8 mo ago/)
    expect(text.indexOf('Critical')).toBeLessThan(text.indexOf('How its splices stand'))
  })

  it('links its worst splice and says what is past its response time', () => {
    expect(text).toContain('critical, measured ratio 4.30')
    expect(html).toContain('href="/splices/1"')
    expect(html).toContain('href="/splices/4"')
    expect(text).toContain('2 overdue by when they were found: 1 critical, 1 urgent, the longest T-B-11 , found 76 days ago, learned of here 12 Nov 2026; counted from when it came in here: 1.')
  })

  it('links the critical reading whose place is not settled to its review', () => {
    expect(html).toContain('href="/intake/review?reading=8"')
    expect(text).toContain('+1 critical, place not settled : by its own numbers')
  })

  it('says of splices of unknown condition who was never there and who was in vain', () => {
    expect(text).toContain('Of unknown condition, which is never sound: 20 never looked at, 3 with an inconclusive reading, 9 never read themselves (flight or patrol passed, no exception reported).')
  })

  it('keeps looked at and conclusive apart, and says why a look may prove nothing', () => {
    expect(text).toMatch(/Conclusively 0 ?% 0 of 120 spans and phases Looked at, whatever it showed 100 ?% 120 of 120/)
    expect(text).toContain('120 of those prove nothing')
    expect(text).not.toContain('re-survey')
    const coverage = { ...health.coverage, conclusive_span_phases: 120, conclusive_share: 1, conclusive_oldest_on: '2019-05-01', conclusive_newest_on: '2026-03-14',
      conclusive_stale_span_phases: 30, conclusive_stale_share: 0.25, every_interface_span_phases: 60 }
    const old = renderToStaticMarkup(createElement(CircuitSheet, { circuit, health: { ...health, coverage }, ...words })).replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ')
    expect(old).toMatch(/75 ?% looked at conclusively within the re-survey interval \(by resistance 50 ?%, by infrared only 25 ?%: there one bad side may not have shown\), 25 ?% longer ago; evidence of May 2019 to Mar 2026\. 100 ?% looked at, whatever/)
    expect(old).toMatch(/Conclusively 75 ?% 90 of 120 spans and phases, within the re-survey interval of their class, by resistance 50 ?%, by infrared only 25 ?%: there one bad side may not have shown With older looks 100 ?% 120 of 120 spans and phases evidence of May 2019 to Mar 2026/)
    expect(old).toMatch(/25 ?% more \(30 of 120 spans and phases\) was looked at conclusively longer ago than the re-survey interval/)
  })

  it('leads what it may carry with the splice that limits it, rounded down, and gives the rating after it', () => {
    expect(text).toMatch(/What it may carry 616 A per phase, 147 MVA at 138 kV ?, advised, by splice .*T-B-07 ?, critical.*The main section is rated 1,800 A without its splices\./)
    expect(text).toMatch(/Expected peak 700 ?A, 84 ?A over that ?; flow after the worst outage elsewhere not known. Ask the system planner\./)
    const [limit] = circuit.splice_limits
    const held = renderToStaticMarkup(createElement(CircuitSheet, { circuit: { ...circuit, splice_limits: limit ? [{ ...limit, held: true, figure: false, line_a: null, mva: null }] : [] }, health, ...words })).replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ')
    expect(held).toMatch(/Not known: limited by splice .*T-B-07 ?, critical, held ?, of which no figure is drawn\. Ask the rating engineer\./)
    expect(held).not.toContain('616')
    expect(held).not.toContain('without its splices') // a rating alone would be read as what it may carry
    const other = { section_id: 1, splice_id: 2, splice: 'T-C-01', class: 'critical' as const, held: true, figure: false, line_a: null, mva: null }
    const both = renderToStaticMarkup(createElement(CircuitSheet, { circuit: { ...circuit, splice_limits: limit ? [limit, other] : [] }, health, ...words })).replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ')
    expect(both).toMatch(/Not more than 616 A per phase, 147 MVA at 138 kV ?, advised, by splice .*T-B-07 ?, critical ?; splice .*T-C-01 ?, critical, held may be lower: ask the rating engineer .*rated 1,800 A without its splices\./)
    const sound = renderToStaticMarkup(createElement(CircuitSheet, { circuit: { ...circuit, splice_limits: [] }, health, ...words })).replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ')
    expect(sound).toMatch(/1,800 A per phase, 430 MVA at 138 kV ?, by the rating of its main section; no splice that was read allows less/)
    const counts = { sound: 0, watch: 0, degraded: 0, urgent: 0, critical: 0, unknown: 12 }
    const unread = renderToStaticMarkup(createElement(CircuitSheet, { circuit: { ...circuit, counts, splice_limits: [] }, health, ...words })).replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ')
    expect(unread).toMatch(/Not known: of its 12 splices none was read conclusively\. Its main section is rated 1,800 A per phase without its splices\./)
    expect(unread).not.toContain('430 MVA')
  })

  describe('with a register', () => {
    const register = (over: Partial<CurrentLimitJson> = {}): CurrentLimitJson => ({
      id: 4, splice_id: 1, splice: 'T-B-07', circuit_id: 3, circuit: 'Elm-Oak 1', section_id: 1, line_a: 500, mva: 119.5, advised_a: 616, reason: 'Side A',
      proposed_by: 'P. Proposer', proposed_at: '2026-11-20T08:00:00.000Z', review_by: '2026-12-20T08:00:00.000Z', agreed_by: 'R. Engineer',
      agreed_at: '2026-11-20T09:00:00.000Z', accepted_by: 'O. Operator', accepted_at: '2026-11-20T09:30:00.000Z', in_force_from: '2026-11-20T09:30:00.000Z',
      lifted_by: null, lifted_at: null, lifted_why: null, greatest_load_a: null, standing: 'in-force', standing_why: null, ...over,
    })
    const carries = (limits: CurrentLimitJson[]) => {
      const whole = renderToStaticMarkup(createElement(CircuitSheet, { circuit: { ...circuit, limits }, health, ...words })).replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ').replace(/ ([,:;.])/g, '$1')
      return whole.slice(whole.indexOf('What it may carry'))
    }

    it('leads with the limit in force where that is the lowest, says of which splice, and the advised figure after it', () => {
      expect(carries([register()])).toMatch(/^What it may carry 500 A per phase, 119 MVA at 138 kV, limit in force of splice T-B-07 Advised 616 A, by splice .*T-B-07, critical\. The main section is rated 1,800 A/)
      expect(carries([register()])).toContain('Limit in force: 500 A, splice T-B-07.')
    })

    it('leads with the advised figure where that is lower, and says that it lies below the limit in force', () => {
      expect(carries([register({ line_a: 700 })])).toMatch(/^What it may carry 616 A per phase, 147 MVA at 138 kV, advised, by splice .*T-B-07, critical That is below the limit in force, 700 A, splice T-B-07: ask the rating engineer\./)
    })

    it('asks the engineer first where one below the figure has lapsed', () => {
      const lapsed = { standing: 'ask-engineer', standing_why: 'Its review is due.' } as const
      expect(carries([register(lapsed)])).toMatch(/^What it may carry Ask the rating engineer: the limit of 500 A, splice T-B-07, has lapsed\. Not more than 616 A per phase/)
      expect(carries([register({ ...lapsed, line_a: 700 })])).toMatch(/^What it may carry 616 A per phase/)
    })

    it('says that no limit is in force where one is only proposed, and names it on the register as such', () => {
      const text = carries([register({ standing: 'proposed', agreed_by: null, agreed_at: null, accepted_by: null, accepted_at: null, in_force_from: null })])
      expect(text).toMatch(/^What it may carry 616 A per phase/)
      expect(text).toContain('No limit in force.')
      expect(text).toContain('Limits on the register 500 A per phase, 119 MVA, by splice T-B-07: proposed, not in force')
    })
  })

  it('says what its sections are of and what it crosses', () => {
    expect(text).toMatch(/Bobolink × 2/)
    expect(text).toContain('1 road')
  })

  it('draws coverage span by span and lists what was never seen', () => {
    const spans = [
      {
        span_id: 1,
        section: 'main',
        structure_back: '1',
        structure_ahead: '2',
        start_m: 0,
        end_m: 300,
        seen: [{ phase: 'A', method: 'infrared', surveyed_on: '2026-01-01', survey: 'Flight', exceptions_only: false, conclusive_on: null, conclusive_until: null }],
      },
    ]
    const strip = renderToStaticMarkup(createElement(CoverageStrip, { spans, letters: {}, nowMs: NOW }))
    expect(strip).toContain('STR 1-2: infrared, 1 Jan 2026, Flight; proves nothing')
    expect(strip).toContain('STR 1-2, phases B, C')
    expect(strip).not.toContain('exceptions only')
    const flown = spans.map((span) => ({ ...span, seen: span.seen.map((look) => ({ ...look, exceptions_only: true })) }))
    const patrolled = renderToStaticMarkup(createElement(CoverageStrip, { spans: flown, letters: {}, nowMs: NOW }))
    expect(patrolled).toContain('STR 1-2: infrared, 1 Jan 2026, Flight, exceptions only; proves nothing')
    expect(patrolled).toContain('wrote down its finds alone: nothing was found, which is not sound')
  })
})
