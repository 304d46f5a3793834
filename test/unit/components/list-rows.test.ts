import { describe, expect, it } from 'vitest'
import { shortTogetherText, togetherText } from '@/components/operations/corridor-words'
import { hiddenSentence, indexOfSelection, listRows, rowAfterKey, startOfSelection } from '@/components/operations/list-rows'
import { headText, listFoot } from '@/components/operations/list-side'
import type { Corridor } from '@/lib/contract/corridors'
import { summary } from '@/test/fixtures/components/samples'

const corridor = (...ids: number[]): Corridor => ({
  name: ids.map((id) => `C${id}`).join(' / '), throughout: true, bbox: [-115, 47, -114, 48],
  circuits: ids.map((id) => ({ circuit_id: id, circuit: `C${id}`, length_m: 12_000, together_m: 12_000 })),
})

describe('the heading over the list', () => {
  it('counts all, and under a filter what that lets through of all', () => {
    expect(headText(2_397, 12, {}, 2_397)).toBe('2,397 splices on 12 circuits')
    expect(headText(2_397, 12, { circuitIds: [3], phases: ['A'] }, 145)).toBe('145 of 2,397 splices in the filter')
    expect(headText(2_397, 12, { classes: [] }, undefined)).toBe('… of 2,397 splices in the filter')
  })
})

describe('the list of splices', () => {
  it('puts what is degraded or worse on any circuit first, in the order it came in, then circuit by circuit', () => {
    const splices = [
      summary({ id: 3, circuit_id: 7, circuit: 'Seven', class: 'critical' }),
      summary({ id: 2, circuit_id: 8, circuit: 'Eight', class: 'critical' }),
      summary({ id: 6, circuit_id: 8, circuit: 'Eight', class: 'urgent' }),
      summary({ id: 5, circuit_id: 9, circuit: 'Nine', class: 'degraded' }),
      summary({ id: 1, circuit_id: 7, circuit: 'Seven', class: 'watch' }),
      summary({ id: 4, circuit_id: 8, circuit: 'Eight', class: 'sound' }),
    ]
    const rows = listRows(splices, 'risk')
    expect(rows.map((r) => r.key)).toEqual([
      'heading', 'splice-3', 'splice-2', 'splice-6', 'splice-5', 'circuit-7', 'splice-1', 'circuit-8', 'splice-4', 'circuit-9',
    ])
    expect(rows[0]).toMatchObject({ counts: { critical: 2, urgent: 1, degraded: 1, watch: 0 } })
    expect(rows[7]).toMatchObject({ circuit: 'Eight', worst: 'critical', counts: { critical: 1, urgent: 1, sound: 1 } })
    expect(listRows(splices, 'circuit').map((r) => r.key)).toEqual([
      'circuit-7', 'splice-3', 'splice-1', 'circuit-8', 'splice-2', 'splice-6', 'splice-4', 'circuit-9', 'splice-5',
    ])
  })

  it('by corridor, has all splices of its circuits under one heading by risk, then the circuits that hang alone', () => {
    const splices = [
      summary({ id: 1, circuit_id: 9, circuit: 'C9', class: 'critical' }), summary({ id: 2, circuit_id: 8, circuit: 'C8', class: 'urgent' }),
      summary({ id: 3, circuit_id: 7, circuit: 'C7', class: 'degraded' }), summary({ id: 4, circuit_id: 8, circuit: 'C8', class: 'sound' }),
      summary({ id: 5, circuit_id: 5, circuit: 'C5', class: 'sound' }),
    ]
    const rows = listRows(splices, 'corridor', [corridor(3, 4), corridor(5, 6), corridor(7, 8)])
    expect(rows.map((r) => r.key)).toEqual(['corridor-7', 'splice-2', 'splice-3', 'splice-4', 'corridor-5', 'splice-5', 'circuit-9', 'splice-1'])
    expect(rows[0]).toMatchObject({ circuitId: 8, worst: 'urgent', counts: { urgent: 1, degraded: 1, sound: 1, critical: 0 } })
    // A splice names its circuit where others stand with it, and not below its own.
    expect(rows.map((r) => r.type === 'splice' && r.among)).toEqual([false, true, true, true, false, true, false, false])
    // A circuit chosen elsewhere is found at its corridor, whichever of them it is.
    for (const id of [7, 8]) {
      expect(indexOfSelection(rows, { kind: 'circuit', id })).toBe(0)
      expect(startOfSelection(rows, { kind: 'circuit', id })).toBe(0)
    }
    expect(rows[indexOfSelection(rows, { kind: 'circuit', id: 9 })]?.key).toBe('circuit-9')
    // Nothing is known of corridors: then it is the list by circuit.
    expect(listRows(splices, 'corridor').map((r) => r.key)).toEqual(listRows(splices, 'circuit').map((r) => r.key))
  })

  it('by corridor, is walked by arrows from end to end', () => {
    const rows = listRows(Array.from({ length: 40 }, (_, i) => summary({ id: i + 1, circuit_id: i % 6, class: i % 3 ? 'sound' : 'urgent' })), 'corridor', [corridor(1, 2), corridor(4, 5)])
    let at = -1
    for (let step = 0; step < rows.length; step++) {
      const row = rows[rowAfterKey('ArrowDown', at, rows.length, 10) ?? -1]
      if (!row || row.type === 'heading') throw new Error('An arrow led nowhere.')
      at = indexOfSelection(rows, row.type === 'splice' ? { kind: 'splice', id: row.splice.id } : { kind: 'circuit', id: row.circuitId })
      expect(at).toBe(step)
    }
  })

  it('says how far circuits of a corridor run together', () => {
    expect(togetherText(corridor(1, 2), 'metric')).toBe('on the same structures all along, 12.0 km')
    const partly = { throughout: false, circuits: [{ circuit_id: 1, circuit: '1', length_m: 24_500, together_m: 9_200 }, { circuit_id: 2, circuit: '2', length_m: 9_200, together_m: 9_200 }] }
    expect(togetherText(partly, 'metric')).toBe('partly on the same structures: 1 for 9.2 km of 24.5 km, 2 for 9.2 km of 9.2 km')
    expect(shortTogetherText(partly, 'metric')).toBe('partly together: 38 % of 1, 100 % of 2')
    expect(shortTogetherText(corridor(1, 2), 'metric')).toBe(togetherText(corridor(1, 2), 'metric'))
  })

  it('has no heading where nothing is critical or urgent', () => {
    expect(listRows([summary({ id: 1, circuit_id: 7 })], 'risk').map((r) => r.key)).toEqual(['circuit-7', 'splice-1'])
  })

  it('holds no row twice and loses none', () => {
    const many = Array.from({ length: 500 }, (_, i) => summary({ id: i + 1, circuit_id: i % 13, ratio: (i * 37) % 11, class: i % 5 ? 'sound' : 'urgent' }))
    const rows = listRows(many, 'risk')
    expect(rows.filter((r) => r.type === 'splice')).toHaveLength(500)
    expect(new Set(rows.map((r) => r.key)).size).toBe(1 + 500 + 13)
  })

  it('finds the selection', () => {
    const rows = listRows([
      summary({ id: 1, circuit_id: 7, class: 'watch' }), summary({ id: 2, circuit_id: 8, class: 'urgent' }), summary({ id: 3, circuit_id: 7, class: 'urgent' }),
    ], 'risk')
    expect(rows[indexOfSelection(rows, { kind: 'circuit', id: 8 })]?.key).toBe('circuit-8')
    expect(rows[indexOfSelection(rows, { kind: 'splice', id: 2 })]?.key).toBe('splice-2')
    expect(indexOfSelection(rows, { kind: 'splice', id: 99 })).toBe(-1)
    expect(indexOfSelection(rows, null)).toBe(-1)
  })

  it('begins for a circuit at its worst splice, wherever that stands', () => {
    const splices = [
      summary({ id: 3, circuit_id: 7, class: 'critical' }), summary({ id: 2, circuit_id: 8, class: 'urgent' }), summary({ id: 6, circuit_id: 8, class: 'degraded' }),
      summary({ id: 1, circuit_id: 7, class: 'watch' }), summary({ id: 4, circuit_id: 9, class: 'sound' }),
    ]
    const rows = listRows(splices, 'risk')
    const at = (id: number, of = rows) => of[startOfSelection(of, { kind: 'circuit', id })]?.key
    expect([7, 8, 9, 99].map((id) => at(id))).toEqual(['splice-3', 'splice-2', 'circuit-9', undefined])
    expect(at(8, listRows(splices, 'circuit'))).toBe('circuit-8')
    expect(rows[startOfSelection(rows, { kind: 'splice', id: 1 })]?.key).toBe('splice-1')
  })

  it('reaches its end by arrows alone, and never its heading', () => {
    const rows = listRows(Array.from({ length: 40 }, (_, i) => summary({ id: i + 1, circuit_id: i % 4, class: i % 3 ? 'sound' : 'urgent' })), 'risk')
    let at = -1
    for (let step = 1; step < rows.length; step++) {
      const row = rows[rowAfterKey('ArrowDown', at, rows.length, 10, 1) ?? -1]
      if (!row || row.type === 'heading') throw new Error('An arrow led nowhere.')
      const selection = row.type === 'splice' ? { kind: 'splice' as const, id: row.splice.id } : { kind: 'circuit' as const, id: row.circuitId }
      at = indexOfSelection(rows, selection)
    }
    expect(at).toBe(rows.length - 1)
    expect(rowAfterKey('Home', at, rows.length, 10, 1)).toBe(1)
    expect(rowAfterKey('ArrowUp', 1, rows.length, 10, 1)).toBe(1)
    expect(rowAfterKey('PageUp', 4, rows.length, 10, 1)).toBe(1)
  })

  it('walks by keys and stays within its ends', () => {
    expect(rowAfterKey('ArrowDown', -1, 5, 3)).toBe(0)
    expect(rowAfterKey('ArrowDown', 4, 5, 3)).toBe(4)
    expect(rowAfterKey('ArrowUp', 0, 5, 3)).toBe(0)
    expect(rowAfterKey('PageDown', 0, 5, 3)).toBe(3)
    expect(rowAfterKey('End', 0, 5, 3)).toBe(4)
    expect(rowAfterKey('a', 0, 5, 3)).toBeNull()
    expect(rowAfterKey('ArrowDown', -1, 0, 3)).toBeNull()
  })

  it('says how many urgent and critical the filter hides, and nothing where it hides none', () => {
    expect(hiddenSentence({ urgent: 5, critical: 2 })).toBe('Hidden by the filter: 2 critical, 5 urgent')
    expect(hiddenSentence({ urgent: 1, critical: 0 })).toBe('Hidden by the filter: 1 urgent')
    expect(hiddenSentence({ urgent: 0, critical: 0 })).toBeNull()
  })

  it('says how much of the filter it holds', () => {
    expect(listFoot(0, undefined)).toBe('Loading…')
    expect(listFoot(500, 2397)).toBe('2,397 in the filter, by risk')
    expect(listFoot(2397, 2397)).toBe('2,397 in the filter, by risk')
    expect(listFoot(5000, 1_000_000)).toBe('The worst 5,000 of 1,000,000. Narrow the filter to list the rest.')
  })
})
