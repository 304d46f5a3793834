import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import { countsSentence } from '@/components/health/class-bar'
import { longestWords, sinceLearned } from '@/components/health/late'
import { Limits } from '@/components/health/limits'
import { unsettledText } from '@/components/health/unsettled'
import { backlogOf, healthRows, isUnknown, lineNames, shareOf, sortHealth, totalsOf, WORST_CIRCUITS, type HealthSort } from '@/components/health/health-rows'
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
  sound_past_re_measure: 0,
  unsettled: { urgent: 0, critical: 0, reading_id: null },
  worst_class: 'sound',
  bbox: null,
  ...over,
})
const health = (id: number, conclusive: number, covered: number, late: CircuitHealth['past_response']): CircuitHealth => ({
  circuit_id: id,
  circuit: String(id),
  counts: counts(),
  splice_count: 0,
  worst_splice: null,
  limits: { in_force: 0, ask_engineer: 0, lowest_in_force: null, lowest_ask_engineer: null },
  updated_at: '2026-01-01T00:00:00Z',
  last_surveyed_on: `202${id}-01-01`,
  last_load_a: 100 * id,
  past_response: late,
  coverage: {
    span_count: 20, span_phase_count: 60, covered_span_phases: covered, share: covered / 60, conclusive_span_phases: conclusive,
    conclusive_share: conclusive / 60, conclusive_oldest_on: `201${id}-05-01`, conclusive_newest_on: `202${id}-05-01`, conclusive_stale_span_phases: id,
    conclusive_stale_share: id / 60, every_interface_span_phases: 0,
  },
  read_in_late: { degraded: 0, urgent: id, critical: 1, longest_days: 10 * id },
  unsettled: { urgent: 0, critical: 0, reading_id: null },
  overdue: { degraded: 0, urgent: id, critical: 3 - id, longest: { id, splice: `T-${id}`, days: 10 * id, entered_at: `2026-11-0${id}T00:00:00.000Z` } },
})

const rows = healthRows(
  [
    circuit(1, 'Line 10', { worst_class: 'urgent', counts: counts({ urgent: 2, degraded: 4, sound: 5 }) }),
    circuit(2, 'Line 9', { worst_class: 'critical', counts: counts({ critical: 1 }), voltage_kv: null }),
    circuit(3, 'Line 11'),
  ],
  [health(1, 0, 30, { degraded: 0, urgent: 2, critical: 0 }), health(2, 6, 6, { degraded: 0, urgent: 0, critical: 1 })],
)
const order = (by: HealthSort, ascending: boolean) => sortHealth(rows, { by, ascending }).map((r) => r.circuit)

describe('the table of circuits', () => {
  it('starts with the worst by class counts: one more critical splice outweighs any number of urgent ones', () => {
    const of = (id: number, over: Partial<ClassCounts>) => circuit(id, String(id), { counts: counts(over) })
    const circuits = [of(1, { urgent: 90, degraded: 300 }), of(2, { critical: 2 }), of(3, { critical: 1, urgent: 50 }), of(4, { critical: 2, urgent: 1, sound: 4000 }),
      of(5, { unknown: 500 }), of(6, { watch: 1 })]
    expect(sortHealth(healthRows(circuits, []), WORST_CIRCUITS).map((r) => r.id)).toEqual([4, 2, 3, 1, 5, 6])
    const doubtful = { ...circuits[4]!, unsettled: { urgent: 0, critical: 1, reading_id: 9 } }
    expect(sortHealth(healthRows([...circuits.filter((c) => c.id !== 5), doubtful], []), WORST_CIRCUITS).map((r) => r.id)).toEqual([4, 2, 3, 5, 1, 6])
  })

  it('puts circuits of which nothing is known after what is urgent, by voltage and then by load, and never last as if good', () => {
    const unknown = (id: number, voltage_kv: number | null) => circuit(id, String(id), { counts: counts({ unknown: 200 }), voltage_kv })
    const circuits = [circuit(1, '1', { counts: counts({ urgent: 1, sound: 9 }) }), circuit(2, '2', { counts: counts({ degraded: 40 }) }), unknown(3, 69), unknown(4, 345),
      unknown(5, 345), circuit(6, '6', { counts: counts() })]
    const loads = [4, 5].map((id) => health(id, 0, 0, { degraded: 0, urgent: 0, critical: 0 }))
    expect(sortHealth(healthRows(circuits, loads), WORST_CIRCUITS).map((r) => r.id)).toEqual([1, 5, 4, 3, 2, 6])
    expect(healthRows(circuits, []).map(isUnknown)).toEqual([false, false, true, true, true, false])
  })

  it('counts readings whose place is not settled beside the splices', () => {
    expect(unsettledText({ urgent: 0, critical: 1 })).toBe('+1 critical, place not settled')
    expect(unsettledText({ urgent: 2, critical: 1 })).toBe('+1 critical, 2 urgent, place not settled')
    expect(unsettledText({ urgent: 0, critical: 0 })).toBe('')
  })

  it('says how long the longest has been overdue since it was found, and when it was entered', () => {
    const longest = { id: 1, splice: 'T-1', days: 75, entered_at: '2026-11-12T10:00:00.000Z' }
    expect(longestWords(longest, 'UTC')).toBe('found 75 days ago, learned of here 12 Nov 2026')
    expect(sinceLearned({ degraded: 0, urgent: 0, critical: 0 })).toBe('counted from when it came in here: none yet')
    expect(sinceLearned({ degraded: 0, urgent: 2, critical: 1 })).toBe('counted from when it came in here: 3')
  })

  it('sorts names as people count, and figures by value; what is not known comes first when rising', () => {
    expect(order('circuit', true)).toEqual(['Line 9', 'Line 10', 'Line 11'])
    expect(order('length', false)).toEqual(['Line 11', 'Line 9', 'Line 10'])
    expect(order('lookedAt', true)).toEqual(['Line 11', 'Line 9', 'Line 10'])
    expect(order('conclusive', false)).toEqual(['Line 9', 'Line 10', 'Line 11'])
    expect(order('late', false)).toEqual(['Line 10', 'Line 9', 'Line 11'])
    expect(order('backlog', false)).toEqual(['Line 10', 'Line 9', 'Line 11'])
    expect(order('voltage', true)[0]).toBe('Line 9')
    expect(order('survey', true)[0]).toBe('Line 11')
  })

  it('adds up the network: counts, length, splices, and the share over all spans and phases', () => {
    const totals = totalsOf(rows)
    expect(totals).toMatchObject({ circuits: 3, lengthM: 6000, splices: 15, counts: { urgent: 2, critical: 1, sound: 8 } })
    expect(totals).toMatchObject({ lookedAt: 36, conclusive: 6, spanPhases: 120, late: { degraded: 0, urgent: 2, critical: 1 } })
    expect(totals.overdue).toEqual({ degraded: 0, urgent: 3, critical: 3, longest: { id: 2, splice: 'T-2', days: 20, entered_at: '2026-11-02T00:00:00.000Z' } })
    expect(totals.age).toEqual({
      conclusive_oldest_on: '2011-05-01', conclusive_newest_on: '2022-05-01', conclusive_stale_span_phases: 3, conclusive_stale_share: 3 / 120, every_interface_span_phases: 0,
    })
    expect(backlogOf(totals.counts)).toBe(7)
  })

  it('has no share where nothing can be counted', () => {
    expect(shareOf(0, 0)).toBeNull()
  })

  it('says the ends once where the line is named after them', () => {
    expect(lineNames({ line_name: 'Elm Line', from: 'Elm', to: 'Oak' })).toBe('Elm Line · Elm to Oak')
    expect(lineNames({ line_name: 'Elm - Oak No. 2', from: 'Elm', to: 'Oak' })).toBe('Elm - Oak No. 2')
    expect(lineNames({ line_name: null, from: 'Elm', to: null })).toBe('Elm')
  })

  it('reads counts aloud, the worst first', () => {
    expect(countsSentence(counts({ sound: 1200, critical: 2 }))).toBe('2 critical, 1,200 sound')
    expect(countsSentence(counts())).toBe('no splices')
  })
})

describe('limits of a circuit', () => {
  const text = (of: CircuitHealth['limits']) => renderToStaticMarkup(createElement(Limits, { of })).replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ').trim()
  const one = (line_a: number) => ({ splice_id: 441, splice: '2310-088', line_a })

  it('say how many are in force and lapsed, with the lowest of each rounded down, and nothing where there is none', () => {
    expect(text({ in_force: 1, ask_engineer: 0, lowest_in_force: one(500.9), lowest_ask_engineer: null })).toBe('1 limit in force, 500 A, 2310-088')
    expect(text({ in_force: 2, ask_engineer: 1, lowest_in_force: one(500), lowest_ask_engineer: one(300) })).toBe(
      '1 limit lapsed, ask engineer , 300 A, 2310-088 2 limits in force, lowest 500 A, 2310-088')
    expect(text({ in_force: 0, ask_engineer: 0, lowest_in_force: null, lowest_ask_engineer: null })).toBe('')
  })
})
