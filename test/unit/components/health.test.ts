import { describe, expect, it } from 'vitest'
import { countsSentence } from '@/components/health/class-bar'
import { coverageShare, healthRows, lineNames, sortHealth, totalsOf, type HealthSort } from '@/components/health/health-rows'
import type { CircuitHealth, CircuitSummary, ClassCounts } from '@/lib/contract/contract'

const counts = (over: Partial<ClassCounts> = {}): ClassCounts => ({
  sound: 0,
  watch: 0,
  degraded: 0,
  urgent: 0,
  critical: 0,
  unknown: 0,
  ...over,
})
const circuit = (id: number, name: string, over: Partial<CircuitSummary> = {}): CircuitSummary => ({
  id,
  name,
  line_name: null,
  from: 'Elm',
  to: 'Oak',
  voltage_kv: 138,
  region: null,
  length_m: 1000 * id,
  counts: counts({ sound: id }),
  worst_class: 'sound',
  bbox: null,
  ...over,
})
const health = (id: number, covered: number, all: number): CircuitHealth => ({
  circuit_id: id,
  circuit: String(id),
  counts: counts(),
  splice_count: 0,
  worst_splice: null,
  updated_at: '2026-01-01T00:00:00Z',
  last_surveyed_on: `202${id}-01-01`,
  coverage: { span_count: all / 3, span_phase_count: all, covered_span_phases: covered, share: covered / all },
})

const rows = healthRows(
  [
    circuit(1, 'Line 10', { worst_class: 'urgent', counts: counts({ urgent: 2, sound: 5 }) }),
    circuit(2, 'Line 9', { worst_class: 'critical', counts: counts({ critical: 1 }), voltage_kv: null }),
    circuit(3, 'Line 11'),
  ],
  [health(1, 30, 60), health(2, 6, 60)],
)
const order = (by: HealthSort, ascending: boolean) => sortHealth(rows, by, ascending).map((r) => r.circuit)

describe('the table of circuits', () => {
  it('starts with the worst', () => {
    expect(order('worst', false)).toEqual(['Line 9', 'Line 10', 'Line 11'])
  })

  it('sorts names as people count, and figures by value; what is not known comes first when rising', () => {
    expect(order('circuit', true)).toEqual(['Line 9', 'Line 10', 'Line 11'])
    expect(order('length', false)).toEqual(['Line 11', 'Line 9', 'Line 10'])
    expect(order('coverage', true)).toEqual(['Line 11', 'Line 9', 'Line 10'])
    expect(order('voltage', true)[0]).toBe('Line 9')
    expect(order('survey', true)[0]).toBe('Line 11')
  })

  it('adds up the network: counts, length, splices, and the share over all spans and phases', () => {
    const totals = totalsOf(rows)
    expect(totals).toMatchObject({ circuits: 3, lengthM: 6000, splices: 11, counts: { urgent: 2, critical: 1, sound: 8 } })
    expect(coverageShare(totals)).toBe(36 / 120)
  })

  it('has no share where nothing can be counted', () => {
    expect(coverageShare({ coveredSpanPhases: 0, spanPhases: 0 })).toBeNull()
  })

  it('says the ends once where the line is named after them', () => {
    expect(lineNames({ line_name: 'Elm Line', from: 'Elm', to: 'Oak' })).toBe('Elm Line · Elm to Oak')
    expect(lineNames({ line_name: 'Elm - Oak No. 2', from: 'Elm', to: 'Oak' })).toBe('Elm - Oak No. 2')
    expect(lineNames({ line_name: null, from: 'Elm', to: null })).toBe('Elm')
  })

  it('reads counts aloud, the worst first', () => {
    expect(countsSentence(counts({ sound: 200, critical: 2 }))).toBe('2 critical, 200 sound')
    expect(countsSentence(counts())).toBe('no splices')
  })
})
