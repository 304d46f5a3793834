import { describe, expect, it } from 'vitest'
import { compareWorstFirst, hiddenSentence, indexOfSelection, rowAfterKey, urgentThenCircuits } from '@/components/operations/list-rows'
import { listFoot } from '@/components/operations/list-side'
import { summary } from '@/test/fixtures/components/samples'

describe('the list of splices', () => {
  it('puts the worse class first, then the higher ratio, then the older reading, and unknown last', () => {
    const splices = [
      summary({ id: 1, class: 'unknown', ratio: null }),
      summary({ id: 2, class: 'sound', ratio: 0.9 }),
      summary({ id: 3, class: 'urgent', ratio: 2.1, last_reading_at: '2026-01-01T00:00:00Z' }),
      summary({ id: 4, class: 'critical', ratio: 2.8 }),
      summary({ id: 5, class: 'urgent', ratio: 2.1, last_reading_at: '2020-01-01T00:00:00Z' }),
      summary({ id: 6, class: 'urgent', ratio: 2.5 }),
    ]
    expect([...splices].sort(compareWorstFirst).map((s) => s.id)).toEqual([4, 6, 5, 3, 2, 1])
  })

  it('puts what is critical or urgent on any circuit first, the worst of all on top, then circuit by circuit', () => {
    const rows = urgentThenCircuits([
      summary({ id: 1, circuit_id: 7, circuit: 'Seven', class: 'watch', ratio: 1.1 }),
      summary({ id: 2, circuit_id: 8, circuit: 'Eight', class: 'critical', ratio: 3 }),
      summary({ id: 3, circuit_id: 7, circuit: 'Seven', class: 'critical', ratio: 4 }),
      summary({ id: 4, circuit_id: 8, circuit: 'Eight', class: 'sound', ratio: 0.5 }),
      summary({ id: 5, circuit_id: 9, circuit: 'Nine', class: 'urgent', ratio: 2 }),
      summary({ id: 6, circuit_id: 8, circuit: 'Eight', class: 'urgent', ratio: 2.4 }),
    ])
    expect(rows.map((r) => r.key)).toEqual([
      'heading', 'splice-3', 'splice-2', 'splice-6', 'splice-5', 'circuit-7', 'splice-1', 'circuit-8', 'splice-4', 'circuit-9',
    ])
    expect(rows[0]).toMatchObject({ counts: { critical: 2, urgent: 2, watch: 0 } })
    expect(rows[7]).toMatchObject({ circuit: 'Eight', worst: 'critical', counts: { critical: 1, urgent: 1, sound: 1 } })
  })

  it('has no heading where nothing is critical or urgent', () => {
    expect(urgentThenCircuits([summary({ id: 1, circuit_id: 7 })]).map((r) => r.key)).toEqual(['circuit-7', 'splice-1'])
  })

  it('holds no row twice and loses none', () => {
    const many = Array.from({ length: 500 }, (_, i) => summary({ id: i + 1, circuit_id: i % 13, ratio: (i * 37) % 11, class: i % 5 ? 'sound' : 'urgent' }))
    const rows = urgentThenCircuits(many)
    expect(rows.filter((r) => r.type === 'splice')).toHaveLength(500)
    expect(new Set(rows.map((r) => r.key)).size).toBe(1 + 500 + 13)
  })

  it('finds the selection', () => {
    const rows = urgentThenCircuits([
      summary({ id: 1, circuit_id: 7, class: 'watch' }), summary({ id: 2, circuit_id: 8, class: 'urgent' }), summary({ id: 3, circuit_id: 7, class: 'urgent' }),
    ])
    expect(rows[indexOfSelection(rows, { kind: 'circuit', id: 8 })]?.key).toBe('circuit-8')
    expect(rows[indexOfSelection(rows, { kind: 'splice', id: 2 })]?.key).toBe('splice-2')
    expect(indexOfSelection(rows, { kind: 'splice', id: 99 })).toBe(-1)
    expect(indexOfSelection(rows, null)).toBe(-1)
  })

  it('reaches its end by arrows alone, and never its heading', () => {
    const rows = urgentThenCircuits(Array.from({ length: 40 }, (_, i) => summary({ id: i + 1, circuit_id: i % 4, class: i % 3 ? 'sound' : 'urgent' })))
    let at = -1
    for (let step = 1; step < rows.length; step++) {
      const row = rows[rowAfterKey('ArrowDown', at, rows.length, 10, 1) ?? -1]
      if (!row || row.type === 'heading') throw new Error('An arrow led nowhere.')
      const selection = row.type === 'circuit' ? { kind: 'circuit' as const, id: row.circuitId } : { kind: 'splice' as const, id: row.splice.id }
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
    expect(listFoot(500, 2397)).toBe('2,397 in the filter, worst first')
    expect(listFoot(2397, 2397)).toBe('2,397 in the filter, worst first')
    expect(listFoot(5000, 1_000_000)).toBe('The worst 5,000 of 1,000,000. Narrow the filter to list the rest.')
  })
})
