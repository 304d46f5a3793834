import { describe, expect, it } from 'vitest'
import { laneName, modelOf, neighbour, ofSameCircuit } from '@/components/strip/model'
import { stretchText } from '@/components/strip/words'
import { circuitStrip } from '@/lib/contract/strip'

const NOW_MS = Date.parse('2026-11-30T12:00:00Z')
const look = (phase: string, conclusive_on: string | null) => (
  { phase, method: 'infrared', surveyed_on: '2026-09-01', survey: 's', exceptions_only: false, conclusive_on, conclusive_until: null })
const span = (id: number, section_id: number, start_m: number, seen: ReturnType<typeof look>[]) => (
  { span_id: id, section_id, section: 'x', structure_back: String(id), structure_ahead: String(id + 1), start_m, end_m: start_m + 500, seen, lon_lat: [-100, 45, -99.99, 45] })
const splice = (id: number, section_id: number, line_distance_m: number, phase: string | null, position: string | null = null) => ({
  id, splice: `S-${id}`, section_id, line_distance_m, phase, position, circuit_side: null, subconductor: null, kind: 'full-tension splice', structure_back: null,
  structure_ahead: null, offset_m: 0, lon: -100, lat: 45, class: 'sound', held: false, confidence: 'high', ratio: 0.8, flags: [], measure_by: null, in_filter: true,
})
const strip = circuitStrip.parse({
  circuit_id: 1, circuit: 'X', line_name: null,
  sections: [
    { id: 1, name: 'main', from: null, to: null, start_m: 0, end_m: 2000, structures: [{ structure: '1', line_distance_m: 0 }] },
    { id: 2, name: 'east tap', from: null, to: null, start_m: 0, end_m: 500, structures: [{ structure: 'T1', line_distance_m: 500 }] },
  ],
  spans: [
    span(1, 1, 0, [look('A', '2026-09-01')]), span(2, 1, 500, [look('A', '2026-09-01'), look('B', null)]), span(3, 1, 1000, [look('A', '2019-01-01')]),
    span(4, 1, 1500, []), span(5, 2, 0, []),
  ],
  splices: [splice(3, 2, 100, 'B'), splice(1, 1, 1700, null, 'top'), splice(2, 1, 300, 'A')],
  beside: [{
    circuit_id: 2, circuit: 'Y', line_name: null, stretches: [{ section_id: 1, from_m: 500, to_m: 1500 }],
    splices: [
      { ...splice(12, 7, 9_100, 'C'), abreast: { section_id: 1, line_distance_m: 1400 } }, { ...splice(11, 7, 9_700, 'A'), abreast: { section_id: 1, line_distance_m: 800 } },
    ],
  }],
  crossings: [{ id: 1, kind: 'road', name: null, line_distance_m: 800 }],
})
const model = modelOf(strip, NOW_MS)

describe('what the strip draws', () => {
  it('runs neighbouring spans of which the same is known together, phase by phase', () => {
    const runs = (lane: string) => model.lanes.find(({ key }) => key === lane)?.runs.map(({ finding, fromM, toM }) => [finding, fromM, toM])
    // A section begins anew after the gap: 2 % of 2,500 m.
    expect(runs('phase:A')).toEqual([['recent', 0, 1000], ['old', 1000, 1500], ['never', 1500, 2000], ['never', 2050, 2550]])
    expect(runs('phase:B')).toEqual([['never', 0, 500], ['inconclusive', 500, 1000], ['never', 1000, 2000], ['never', 2050, 2550]])
  })

  it('tells spans apart where only finds were written down, though the same is known of them', () => {
    const flown = circuitStrip.parse({ ...strip, spans: [span(1, 1, 0, [look('A', null)]), span(2, 1, 500, [{ ...look('A', null), exceptions_only: true }])] })
    expect(modelOf(flown, NOW_MS).lanes.find(({ key }) => key === 'phase:A')?.runs.map(({ finding, exceptionsOnly }) => [finding, exceptionsOnly])).toEqual([
      ['inconclusive', false], ['inconclusive', true],
    ])
  })

  it('puts a splice whose phase nobody confirmed on a lane of its position, and says so', () => {
    expect(model.lanes.filter(({ circuit }) => circuit === null).map(({ key, splices }) => [key, splices.map(({ id }) => id)])).toEqual([
      ['phase:A', [2]], ['phase:B', [3]], ['phase:C', []], ['position:top', [1]],
    ])
    expect(laneName({ key: 'position:top', circuit: null }, {}, String)).toEqual(['Top', 'phase not confirmed'])
    expect(laneName({ key: 'phase:A', circuit: null }, { A: 'R' }, String)).toEqual(['Phase R'])
    expect(laneName({ key: 'unknown', circuit: null }, {}, String)).toEqual(['Phase', 'not confirmed'])
  })

  it('steps from splice to splice by line distance, whatever lane they are on, a tap after the main line', () => {
    expect(model.splices.map(({ id }) => id)).toEqual([2, 1, 3])
    expect(neighbour(model.splices, 2, 1)?.id).toBe(1)
    expect(neighbour(model.splices, 3, 1)).toBeNull()
    expect(neighbour(model.splices, 99, 1)).toBeNull()
  })

  it('lays a circuit on the same structures beside it, where this one is abreast, lanes and steps of its own', () => {
    expect(model.lanes.flatMap(({ key, circuit, splices, runs }) => (circuit === 'Y' ? [[key, splices.map(({ id, axisM }) => [id, axisM]), runs]] : []))).toEqual([
      ['phase:A', [[11, 800]], []], ['phase:B', [], []], ['phase:C', [[12, 1400]], []],
    ])
    expect(model.beside[0]?.stretches).toEqual([{ fromM: 500, toM: 1500 }])
    expect(laneName({ key: 'phase:A', circuit: 'Y' }, { A: 'R' }, String)).toEqual(['Y R'])
    expect(neighbour(ofSameCircuit(model, 11), 11, 1)?.id).toBe(12)
    expect(neighbour(ofSameCircuit(model, 2), 2, 1)?.id).toBe(1)
    expect(model.splices.some(({ id }) => id === 11)).toBe(false)
  })

  it('tells the stretch in line distances of each section', () => {
    expect(stretchText({ fromM: 0, toM: 2000 }, model.laid, 'metric')).toBe('0 to 2.00 km')
    expect(stretchText({ fromM: 500, toM: 2250 }, model.laid, 'metric')).toBe('500 m to 2.00 km, east tap 0 to 200 m')
  })
})
