import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import { governingName } from '@/components/splice/governing'
import { historyWords } from '@/components/splice/history-words'
import { stepsOf } from '@/components/splice/limit-steps'
import { SpliceSheet } from '@/components/splice/splice-sheet'
import type { SpliceDetail } from '@/lib/contract/contract'
import type { CurrentLimitJson } from '@/lib/contract/limits'
import type { CarryingLimit } from '@/lib/contract/outlook'
import { detail } from '@/test/fixtures/components/samples'

const NOW = Date.parse('2026-11-24T12:00:00Z')

const register = (over: Partial<CurrentLimitJson> = {}): CurrentLimitJson => ({
  id: 4, splice_id: 1, splice: 'T-B-07', circuit_id: 3, circuit: 'Elm-Oak 1', section_id: 1, line_a: 500, mva: 119.5, advised_a: 686.5, reason: 'Side A',
  proposed_by: 'P. Proposer', proposed_at: '2026-11-20T08:00:00.000Z', review_by: '2026-12-20T08:00:00.000Z', agreed_by: 'R. Engineer',
  agreed_at: '2026-11-20T09:00:00.000Z', accepted_by: 'O. Operator', accepted_at: '2026-11-20T09:30:00.000Z', in_force_from: '2026-11-20T09:30:00.000Z',
  lifted_by: null, lifted_at: null, lifted_why: null, greatest_load_a: null, standing: 'in-force', standing_why: null, ...over,
})
const PROPOSED = { agreed_by: null, agreed_at: null, accepted_by: null, accepted_at: null, in_force_from: null, standing: 'proposed' } as const
const LAPSED = { standing: 'ask-engineer', standing_why: 'Its review is due. Ask the rating engineer; it stays on the register until a person lifts it.' } as const

const advised = (lineA: number): CarryingLimit => ({
  line_a: lineA, mva: null, limited_by: 'splice', splice_line_a: lineA, splice_subconductor_a: lineA, section_a: 900, section_from: 'rating', splice_c: 93,
  upper_k: 3.1, upper_share: 0.9, weather: { ambient_c: 25, wind_m_s: 0.61, wind_angle_deg: 90, sun_w_m2: 1000, elevation_m: 1000 }, held_ratio: null, flows: [],
})

const HOTTER = [{ ambient_c: 30, line_a: 660.4 }, { ambient_c: 35, line_a: 633.9 }, { ambient_c: 40, line_a: 545.9 }]

function text(limits: CurrentLimitJson[], advisedA: number | null, over: Partial<SpliceDetail> = {}): string {
  const of = detail({
    limits, expected_peak: { current_a: 546, taken_at: '2026-12-01T00:00:00.000Z' }, post_contingency: { current_a: 783, taken_at: '2026-12-01T00:00:00.000Z' },
    outlook: { fusion: null, trends: [], next_reading_due_at: null, limit: advisedA === null ? null : advised(advisedA), no_limit: advisedA === null ? 'Not known: no ratio.' : null, in_hotter_air: HOTTER, caution: 'Advice.' }, ...over,
  })
  const markup = renderToStaticMarkup(createElement(SpliceSheet, { detail: of, system: 'metric', timeZone: 'UTC', letters: { A: 'A', B: 'B', C: 'C' }, nowMs: NOW }))
  return markup.replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ')
}
const next = (whole: string) => whole.slice(whole.indexOf(' Next '), whole.indexOf('Advice only'))
const carries = (whole: string) => whole.slice(whole.indexOf('What it may carry'))

describe('a sheet with a limit in force', () => {
  const whole = text([register()], 686.5)

  it('leads with it, has the advised figure after it and compares every flow with it alone', () => {
    expect(carries(whole)).toMatch(/^What it may carry 500 A per phase, 119 MVA at 138 kV: limit in force, review by 20 Dec 2026 advised 686 A/)
    expect(carries(whole)).toMatch(/Expected peak 546 A : 46 A over the limit in force/)
    expect(carries(whole)).toContain('283 A over the limit in force')
    expect(whole).not.toMatch(/(over|under) (it|the advised)/)
  })

  it('has the peak over it at its head and as the first that is next', () => {
    expect(whole.slice(0, whole.indexOf('Will it drop?'))).toContain('Expected peak 546 A: 46 A over the limit in force, 500 A (119 MVA) per phase. After contingency 783 A: 283 A over.')
    expect(next(whole)).toMatch(/^ Next Ask the control room and the system planner before the peak: the expected 546 A is 46 A over the limit in force, 500 A \(119 MVA\) per phase\. Call the control room/)
  })

  it('says first where the advised figure has fallen below it', () => {
    const lower = text([register()], 450.9)
    expect(lower.slice(0, lower.indexOf('Will it drop?'))).toContain('Advised 450 A now, below the limit in force, 500 A: ask the rating engineer.')
    expect(next(lower)).toMatch(/^ Next Ask the rating engineer now: the advised figure, 450 A, lies below the limit in force, 500 A\./)
    expect(carries(lower)).toMatch(/^What it may carry Advised 450 A now, which is below the limit in force\. Ask the rating engineer\. 500 A per phase/)
  })

  it('stands where nothing is advised too', () => {
    expect(carries(text([register()], null))).toMatch(/^What it may carry 500 A per phase.*No figure is advised\. Not known: no ratio\..*46 A over the limit in force/)
  })

  it('calls at once where the flow of this hour passes it, and not for one of last week', () => {
    const flow = (taken_at: string) => next(text([register()], 686.5, { last_load: { current_a: 510, taken_at, quality: 'measured' } }))
    expect(flow('2026-11-24T11:30:00.000Z')).toContain('Call the control room: the flow of 510 A is 10 A over the limit in force, 500 A (119 MVA) per phase.')
    expect(flow('2026-11-17T11:30:00.000Z')).not.toContain('510 A')
  })
})

describe('a sheet without one', () => {
  it('says what hotter air leaves of the advised figure, and from which air the peak passes it', () => {
    expect(carries(text([], 686.5))).toContain('Advised in hotter air, not a rating: 660 A at 30 °C, 633 A at 35 °C, 545 A at 40 °C. At 40 °C the peak of 546 A passes it.')
    expect(carries(text([], 513.2))).toContain('545 A at 40 °C. Advice.')
  })

  it('names a proposed limit as such and compares nothing with it', () => {
    const whole = text([register(PROPOSED)], 686.5)
    expect(carries(whole)).toMatch(/^What it may carry 686 A per phase.*Advised; no limit is in force\. 500 A is proposed and binds nobody until the rating engineer agrees and an operator accepts it\./)
    expect(whole).toContain('140 A under the advised figure')
    expect(whole).not.toContain('over the limit')
  })

  it('has a peak over the advised figure as the first that is next, with what is to be done', () => {
    const whole = text([], 513.2)
    expect(next(whole)).toMatch(/^ Next Propose a limit of 513 A per phase before the peak: the expected 546 A is 33 A over it, and none is in force\./)
    expect(whole.slice(0, whole.indexOf('Will it drop?'))).toContain('Expected peak 546 A: 33 A over the advised figure, 513 A (122 MVA) per phase; no limit is in force.')
    expect(next(text([register(PROPOSED)], 513.2))).toMatch(/^ Next Bring the proposed limit of 500 A into force before the peak/)
    expect(next(text([], 783))).not.toMatch(/before the peak|contingency/)
  })

  it('has a flow after a contingency over it at its head and as the first that is next, where the peak is under it', () => {
    const whole = text([], 686.5)
    expect(whole.slice(0, whole.indexOf('Will it drop?'))).toContain('After contingency 783 A: 97 A over the advised figure, 686 A (164 MVA) per phase; no limit is in force.')
    expect(next(whole)).toMatch(/^ Next Propose a limit of 686 A per phase and ask the system planner what relieves it: after a contingency the 783 A are 97 A over it, and none is in force\./)
    expect(next(text([register(PROPOSED)], 686.5))).toMatch(/^ Next Bring the proposed limit of 500 A into force and ask the system planner/)
    expect(next(text([register({ line_a: 600, mva: null })], 686.5))).toMatch(/^ Next Ask the system planner what relieves it after a contingency: the 783 A then are 183 A over the limit in force, 600 A/)
  })

  it('leads with whom to ask where it has lapsed, and never says under', () => {
    const whole = text([register(LAPSED)], 686.5)
    expect(carries(whole)).toMatch(/^What it may carry Ask the rating engineer The limit of 500 A has lapsed\. Its review is due\./)
    expect(carries(whole)).toContain('46 A over the lapsed limit')
    expect(next(whole)).toMatch(/^ Next Ask the rating engineer what it may carry: the limit of 500 A has lapsed\. Its review is due\./)
    expect(text([register({ ...LAPSED, line_a: 600 })], 686.5)).not.toMatch(/A under /)
  })
})

describe('steps of the register', () => {
  const labels = (over: Partial<CurrentLimitJson>) => stepsOf(register(over)).map(({ label }) => label)

  it('withdraw what nobody has accepted, and lift what is in force or lapsed', () => {
    expect(labels(PROPOSED)).toEqual(['Agree as rating engineer', 'Withdraw it'])
    expect(labels({ accepted_by: null, accepted_at: null, in_force_from: null, standing: 'agreed' })).toEqual(['Accept as operator', 'Withdraw it'])
    expect(labels({})).toEqual(['Lift it'])
    expect(labels(LAPSED)).toEqual(['Lift it'])
  })

  it('stand in the history with who and why', () => {
    const words = (step: 'accepted' | 'withdrawn', why: string | null) =>
      historyWords([{ kind: 'limit', at: '2026-11-20T08:00:00.000Z', step, line_a: 500, by: 'O. Operator', why }], 'UTC')
    expect(words('accepted', null)).toEqual({ what: 'Limit accepted by the operator, read back', detail: '500 A per phase, by O. Operator' })
    expect(words('withdrawn', 'Wrong splice')).toEqual({ what: 'Proposed limit withdrawn', detail: '500 A per phase, by O. Operator: Wrong splice' })
  })
})

describe('what a flow is held against', () => {
  it('is the section’s rating by name where the splice allows more than it', () => {
    const advised = { kind: 'advised' as const, lineA: 900 }
    expect(governingName(advised, 'section')).toBe('the section’s rating')
    expect(governingName(advised, 'splice')).toBe('the advised figure')
    expect(governingName({ kind: 'in-force', lineA: 500, advisedA: null, advisedIsLower: false }, 'section')).toBe('the limit in force')
  })
})
