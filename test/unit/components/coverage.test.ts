import { describe, expect, it } from 'vitest'
import { evidenceSpan, methodText, shortMethodText, staleText } from '@/components/health/evidence-age'
import { bySection, findingOf, isPastResurvey, phasesOf, spansWhere } from '@/components/circuit/coverage'
import { crossingsText } from '@/components/circuit/crossings'
import { apparentPowerMva, partLimits } from '@/components/circuit/limits'
import type { SpanCoverage } from '@/lib/contract/coverage'

const seen = (phase: string, surveyed_on: string, conclusive_on: string | null = surveyed_on, conclusive_until: string | null = null) => ({
  phase, method: 'infrared', surveyed_on, survey: 'Flight', exceptions_only: false, conclusive_on, conclusive_until,
})
const neverSeen = (spans: SpanCoverage[], letters: Record<string, string>) => spansWhere(spans, letters, (look) => !look)
const span = (id: number, of: SpanCoverage['seen'], over: Partial<SpanCoverage> = {}): SpanCoverage => ({
  span_id: id,
  section: 'main',
  structure_back: String(id),
  structure_ahead: String(id + 1),
  start_m: id * 300,
  end_m: id * 300 + 300,
  seen: of,
  ...over,
})

describe('coverage by span and phase', () => {
  it('names each span and phase that was never looked at', () => {
    const spans = [
      span(1, [seen('A', '2025-01-01'), seen('B', '2025-01-01'), seen('C', '2025-01-01')]),
      span(2, [seen('A', '2025-01-01')]),
      span(3, []),
    ]
    expect(neverSeen(spans, {})).toEqual(['STR 2-3, phases B, C', 'STR 3-4'])
    expect(neverSeen(spans, { B: 'S', C: 'T' })[0]).toBe('STR 2-3, phases S, T')
  })

  it('does not take a reading of unconfirmed phase for a look at any phase, and shows it by itself', () => {
    const spans = [span(1, [seen('', '2025-01-01')])]
    expect(neverSeen(spans, {})).toEqual(['STR 1-2'])
    expect(phasesOf(spans)).toEqual(['A', 'B', 'C', ''])
    expect(phasesOf([span(1, [])])).toEqual(['A', 'B', 'C'])
  })

  it('names what was looked at without proving anything apart from what was never looked at', () => {
    const spans = [span(1, [seen('A', '2025-01-01', null), seen('B', '2025-01-01', '2020-01-01')])]
    expect(spansWhere(spans, {}, (look) => look?.conclusive_on === null)).toEqual(['STR 1-2, phase A'])
    expect(neverSeen(spans, {})).toEqual(['STR 1-2, phase C'])
  })

  it('is past re-survey from the day after the last one of its interval', () => {
    const past = (day: string | null, now: string) => isPastResurvey({ conclusive_until: day }, Date.parse(now))
    expect(past('2026-11-24', '2026-11-24T23:59:59Z')).toBe(false)
    expect(past('2026-11-24', '2026-11-25T00:00:00Z')).toBe(true)
    expect(past(null, '2026-11-25T00:00:00Z')).toBe(false)
  })

  it('says from when the evidence is and how much of it is too old', () => {
    const age = { conclusive_oldest_on: '2023-04-17', conclusive_newest_on: '2026-11-04', conclusive_stale_share: 0.12, conclusive_stale_span_phases: 12, every_interface_span_phases: 5 }
    expect(evidenceSpan(age)).toBe('Apr 2023 to Nov 2026')
    expect(evidenceSpan({ ...age, conclusive_oldest_on: '2026-11-01' })).toBe('Nov 2026')
    expect(evidenceSpan({ ...age, conclusive_oldest_on: null, conclusive_newest_on: null })).toBe('')
    expect(staleText(age)).toMatch(/^and 12 ?% past re-survey$/)
    expect(staleText({ ...age, conclusive_stale_share: 0 })).toBe('')
    expect(methodText(10, age, 100)).toMatch(/^by resistance 5 ?%, by infrared only 5 ?%: there one bad side may not have shown$/)
    expect(methodText(5, age, 100)).toMatch(/^by resistance 5 ?%, by infrared only 0 ?%$/)
    expect(methodText(0, age, 100)).toBe('')
    expect(shortMethodText(10, age, 100)).toMatch(/^5 ?% by resistance, the rest by infrared only$/)
    expect(shortMethodText(5, age, 100)).toBe('by resistance')
    expect(shortMethodText(5, { every_interface_span_phases: 0 }, 100)).toBe('by infrared only')
    expect(shortMethodText(0, age, 100)).toBe('')
  })

  it('grades by when a failing splice would have shown, not by when somebody was there', () => {
    const now = Date.parse('2026-11-24T00:00:00Z')
    const graded = (day: string | null) => findingOf({ conclusive_on: day }, now)
    expect(['2025-11-24', '2022-11-24', '2019-11-24', null].map(graded)).toEqual(['recent', 'older', 'old', 'inconclusive'])
    expect(findingOf(undefined, now)).toBe('never')
  })

  it('keeps taps apart', () => {
    expect(bySection([span(1, []), span(2, [], { section: 'tap' })]).map(([name]) => name)).toEqual(['main', 'tap'])
  })

  it('counts crossings by kind', () => {
    expect(crossingsText([{ kind: 'road' }, { kind: 'river' }, { kind: 'road' }])).toBe('2 roads, 1 river')
  })
})

describe('what a circuit carries', () => {
  const section = (id: number, name: string, rating_a: number | null) => ({
    id, name, from: null, to: null, conductor: null, subconductors: 1, rating_a, rating_emergency_a: null, max_operating_c: null, elevation_m: null, lateral_offset_m: null,
    length_m: 1, declared_length_m: null, last_load: null, expected_peak: null, post_contingency: null, structure_count: 0, span_count: 0,
  })
  const limit = (section_id: number, line_a: number) => ({ section_id, splice_id: 7, splice: 'S-7', class: 'critical' as const, held: false, figure: true, line_a, mva: null })

  it('is limited by its main section’s splice before any rating, and by a tap only on the tap', () => {
    const { main, taps } = partLimits({ sections: [section(1, 'main', 355), section(2, 'tap', 240)], splice_limits: [limit(1, 216.4)], limits: [] })
    expect(main).toMatchObject({ section: { name: 'main', rating_a: 355 }, splice: { splice: 'S-7', line_a: 216.4 } })
    expect(taps).toMatchObject([{ section: { name: 'tap' }, splice: null, mayBeLower: [] }])
    expect(partLimits({ sections: [section(1, 'main', 355), section(2, 'tap', 240)], splice_limits: [limit(2, 100)], limits: [] }).main?.splice).toBeNull()
    expect(partLimits({ sections: [section(4, 'Elm to Oak', 355)], splice_limits: [], limits: [] }).main?.section.id).toBe(4)
    expect(partLimits({ sections: [], splice_limits: [], limits: [] })).toEqual({ main: null, taps: [] })
  })

  it('is √3 U I in MVA: 230 kV and 1,000 A are 398.4 MVA (computed)', () => {
    expect(apparentPowerMva(230, 1000)).toBeCloseTo(398.37, 2)
  })
})
