import { describe, expect, it } from 'vitest'
import { filtered, hiddenText, hidesCalling } from '@/components/strip/filtered'
import { modelOf, neighbour } from '@/components/strip/model'
import { markLabel } from '@/components/strip/words'
import { circuitStrip } from '@/lib/contract/strip'

const NOW_MS = Date.parse('2026-11-30T12:00:00Z')
const splice = (id: number, line_distance_m: number, phase: string, shown: string, in_filter: boolean) => ({
  id, splice: `S-${id}`, section_id: 1, line_distance_m, phase, position: null, circuit_side: null, subconductor: null, kind: 'full-tension splice', structure_back: null,
  structure_ahead: null, offset_m: 0, lon: -100, lat: 45, class: shown, held: false, confidence: 'high', ratio: 0.8, flags: [], measure_by: null, in_filter,
})
const beside = (id: number, atM: number, shown: string, in_filter: boolean) => ({ ...splice(id, 9_000, 'A', shown, in_filter), abreast: { section_id: 1, line_distance_m: atM } })
const strip = circuitStrip.parse({
  circuit_id: 1, circuit: 'X', line_name: null, spans: [], crossings: [],
  sections: [{ id: 1, name: 'main', from: null, to: null, start_m: 0, end_m: 2000, structures: [] }],
  splices: [splice(1, 100, 'A', 'critical', false), splice(2, 200, 'A', 'sound', true), splice(3, 300, 'B', 'sound', false), splice(4, 400, 'B', 'urgent', true)],
  beside: [{ circuit_id: 2, circuit: 'Y', line_name: null, stretches: [{ section_id: 1, from_m: 0, to_m: 2000 }], splices: [beside(11, 500, 'sound', false), beside(12, 600, 'urgent', false)] }],
})
const model = modelOf(strip, NOW_MS)

describe('the strip under the filter of the list', () => {
  it('has what the filter leaves on its lanes, and of the rest where they stand', () => {
    const { model: shown } = filtered(model, 'X', null)
    expect(shown.lanes.map(({ key, circuit, splices, leftOutM }) => [circuit, key, splices.map(({ id }) => id), leftOutM])).toEqual([
      [null, 'phase:A', [2], [100]], [null, 'phase:B', [4], [300]], [null, 'phase:C', [], []],
      ['Y', 'phase:A', [], [500, 600]], ['Y', 'phase:B', [], []], ['Y', 'phase:C', [], []],
    ])
    // Keys step over what is left out.
    expect(neighbour(shown.splices, 2, 1)?.id).toBe(4)
    expect(shown.beside[0]?.splices).toEqual([])
    // The line and its lanes stay as long and as many as they are.
    expect([shown.whole, shown.lanes.length]).toEqual([model.whole, model.lanes.length])
  })

  it('keeps what is selected, said to be outside the filter', () => {
    const { model: shown, hidden } = filtered(model, 'X', 1)
    expect(shown.splices.map(({ id }) => id)).toEqual([1, 2, 4])
    expect(hidden[0]).toEqual({ circuit: 'X', count: 1, critical: 0, urgent: 0 })
    const words = { system: 'metric' as const, timeZone: 'UTC', letters: {}, nowMs: NOW_MS }
    expect(shown.splices.slice(0, 2).map((one) => markLabel(one, 0, words).includes('not in the filter'))).toEqual([true, false])
  })

  it('counts what is hidden circuit by circuit, urgent and critical first', () => {
    const { hidden } = filtered(model, 'X', null)
    expect(hidden).toEqual([{ circuit: 'X', count: 2, critical: 1, urgent: 0 }, { circuit: 'Y', count: 2, critical: 0, urgent: 1 }])
    expect(hiddenText(hidden)).toBe('The filter hides 1 critical and 1 other on X; 1 urgent and 1 other on Y')
    expect(hidesCalling(hidden)).toBe(true)
    expect(hiddenText([{ circuit: 'X', count: 14, critical: 1, urgent: 2 }, { circuit: 'Y', count: 240, critical: 0, urgent: 0 }]))
      .toBe('The filter hides 1 critical, 2 urgent and 11 others on X; 240 splices on Y')
    expect(hiddenText([{ circuit: 'X', count: 3, critical: 1, urgent: 2 }])).toBe('The filter hides 1 critical, 2 urgent on X')
    expect(hiddenText([{ circuit: 'X', count: 1, critical: 0, urgent: 0 }])).toBe('The filter hides 1 splice on X, none urgent or critical')
  })

  it('says nothing where it hides nothing', () => {
    const all = circuitStrip.parse({ ...strip, splices: strip.splices.map((one) => ({ ...one, in_filter: true })), beside: [] })
    const { hidden } = filtered(modelOf(all, NOW_MS), 'X', null)
    expect([hidden, hiddenText(hidden)]).toEqual([[], null])
  })
})
