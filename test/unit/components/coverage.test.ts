import { describe, expect, it } from 'vitest'
import { bySection, lastSeen, neverSeen, phasesOf, recency, type SpanSeen } from '@/components/circuit/coverage'
import { crossingsText } from '@/components/circuit/circuit-sheet'

const seen = (phase: string, surveyed_on: string) => ({ phase, method: 'infrared', surveyed_on, survey: 'Flight' })
const span = (id: number, of: SpanSeen['seen'], over: Partial<SpanSeen> = {}): SpanSeen => ({
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

  it('takes the latest look, whatever the method', () => {
    expect(lastSeen(span(1, [seen('A', '2021-01-01'), seen('A', '2024-06-01')]), 'A')?.surveyed_on).toBe('2024-06-01')
  })

  it('grades looks by their age', () => {
    const now = Date.parse('2026-11-24T00:00:00Z')
    expect(recency('2025-11-24', now)).toBe('recent')
    expect(recency('2022-11-24', now)).toBe('older')
    expect(recency('2019-11-24', now)).toBe('old')
    expect(recency(undefined, now)).toBe('never')
  })

  it('keeps taps apart', () => {
    expect(bySection([span(1, []), span(2, [], { section: 'tap' })]).map(([name]) => name)).toEqual(['main', 'tap'])
  })

  it('counts crossings by kind', () => {
    expect(crossingsText([{ kind: 'road' }, { kind: 'river' }, { kind: 'road' }])).toBe('2 roads, 1 river')
  })
})
