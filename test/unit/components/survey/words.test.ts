import { describe, expect, it } from 'vitest'
import { lookText, phaseLines, spanSentence, stretchName } from '@/components/operations/survey/words'
import { IN_VAIN, spanSurveys, type SpanSurveys } from '@/lib/contract/survey-layer'

type Look = SpanSurveys['phases'][number]['looks'][number]

const resistance: Look = { method: 'resistance', survey: 'Ground', surveyed_on: '2024-06-01', exceptions_only: false, in_vain: [] }
const flight: Look = { method: 'infrared', survey: 'Flight', surveyed_on: '2026-04-01', exceptions_only: true, in_vain: ['low-load'] }
const span = (phases: SpanSurveys['phases']): SpanSurveys => spanSurveys.parse({
  span_id: 7, circuit_id: 1, circuit: '2310', section: 'main', structure_back: '45', structure_ahead: '46', start_m: 0, end_m: 300, phases,
})
const on = (phase: string, ...looks: Look[]) => ({ phase, conclusive_on: null, looks })

describe('a look in words', () => {
  it('says by what, in which year, and why it proves nothing', () => {
    expect(lookText(resistance)).toBe('resistance 2024')
    expect(lookText({ ...flight, exceptions_only: false })).toBe('infrared 2026 at too low a load')
    expect(lookText({ ...flight, exceptions_only: false, in_vain: ['low-load', 'wind'] })).toBe('infrared 2026 at too low a load and in too much wind')
  })

  it('tells a flight that wrote down its finds alone from one that took a picture of each splice', () => {
    expect(lookText(flight)).toBe('infrared 2026, exceptions only, at too low a load')
    expect(lookText({ ...flight, in_vain: [] })).toBe('infrared 2026, exceptions only')
  })

  it('has words for every reason, and never says sound or safe', () => {
    for (const why of IN_VAIN) expect(lookText({ ...flight, in_vain: [why] })).not.toMatch(/undefined|sound|safe/)
    expect(new Set(IN_VAIN.map((why) => lookText({ ...flight, in_vain: [why] }))).size).toBe(IN_VAIN.length)
  })
})

describe('a span in words', () => {
  it('goes phase by phase from the oldest look to the newest, and names what nobody ever surveyed', () => {
    const seen = span([on('A', { ...flight, exceptions_only: false }, resistance)])
    expect(spanSentence(seen, {})).toBe('Span STR 45-46 of 2310. Phase A: resistance 2024; infrared 2026 at too low a load. Phases B, C: never surveyed.')
    expect(phaseLines(seen, { A: 'R', B: 'S', C: 'T' }).map(([name]) => name)).toEqual(['Phase R', 'Phases S, T'])
  })

  it('tells the last look of each kind alone', () => {
    const before = { ...resistance, surveyed_on: '2018-06-01' }
    expect(phaseLines(span([on('A', resistance, before)]), {})[0]).toEqual(['Phase A', 'resistance 2024'])
  })

  it('takes a look at a phase that nobody confirmed for one at no phase', () => {
    expect(phaseLines(span([on('', resistance)]), {})).toEqual([['Phases A, B, C', 'never surveyed'], ['Phase not confirmed', 'resistance 2024']])
  })

  it('invents no number for a structure that has none', () => {
    expect([stretchName('45', '52'), stretchName(null, '52'), stretchName(null, null)]).toEqual(['STR 45-52', 'STR 52, back', 'no named structure'])
  })
})
