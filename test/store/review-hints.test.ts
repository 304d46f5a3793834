import { beforeAll, describe, expect, it } from 'vitest'
import { againstText, circuitAdvice, nearestLoadText } from '@/components/intake/review/load-hint'
import { reviewItem } from '@/lib/contract/contract'
import { listReview } from '@/lib/store/readings'
import { listUrgent } from '@/lib/store/urgent'
import { useDatabase } from './database'
import { at, buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()

/** Between two circuits 12 m apart nobody can say which one it was. */
const doubtful = (id: string, more: Record<string, string | number> = {}) => reading(id, 450, { ...at(450, 0), gnss_accuracy_m: 8, line_current_a: 476, ...more })

beforeAll(async () => {
  await buildNetwork()
  await report('loads', csv([
    { circuit: 'L1', taken_at: '2026-06-01T09:00:00Z', current_a: 300 }, { circuit: 'L1', taken_at: '2026-06-01T10:10:00Z', current_a: 487 },
    { circuit: 'L1', taken_at: '2026-06-01T10:01:00Z', current_a: 1, quality: 'suspect' }, { circuit: 'L2', taken_at: '2026-05-18T10:00:00Z', current_a: 651 },
    { circuit: 'L2', taken_at: '2026-06-01T10:00:00Z', current_a: 999, quality: 'expected-peak' },
  ]))
  await report('readings', csv([
    doubtful('which'), doubtful('undated', { taken_at: '' }),
    reading('lost', 0, { lon: '', lat: '', circuit: '9999', structure_back: '4', structure_ahead: '5', side_a_uohm: 90 }),
  ]), { survey: 'Doubtful' })
})

const itemOf = async (id: string) => {
  const item = (await listReview(scope)).items.find((one) => one.reading.reading_id === id)
  if (!item) throw new Error(`${id} is not in review`)
  return reviewItem.parse(item)
}
const loadsOf = async (id: string) => {
  const item = await itemOf(id)
  return Object.fromEntries(item.candidates.map((c) => [c.circuit, nearestLoadText(c, item.reading.taken_at)]))
}

describe('a reading that may be on either of two circuits', () => {
  it('shows beside each what it carried nearest to its time, of loads that nobody suspects and nobody planned', async () => {
    expect(await loadsOf('which')).toEqual({ L1: 'carried 487 A at that time', L2: 'carried 651 A 14 days before' })
    expect(circuitAdvice(await itemOf('which'))).toEqual({
      ask: 'Ask the crew for the circuit tag on the structure first.',
      hint: '476 A was read. Beside each circuit stands what it carried nearest to then: a hint which fits, not evidence, for circuits may carry alike.',
    })
  })

  it('shows none where nobody knows when it was read', async () => {
    expect(await loadsOf('undated')).toEqual({ L1: '', L2: '' })
    expect(circuitAdvice(await itemOf('undated'))?.hint).toBe('')
  })
})

describe('the current of a reading', () => {
  it('speaks against a circuit that carried something else at that time, and against one that may not carry it', async () => {
    const item = await itemOf('which')
    const against = (readA: number) => Object.fromEntries(item.candidates.map((c) => [c.circuit, againstText(c, { ...item.reading, fields: { ...item.reading.fields, line_current_a: readA } })]))
    // 487 A fits 476 A; a load of 14 days before says nothing against.
    expect(against(476)).toEqual({ L1: '', L2: '' })
    expect(against(200)).toEqual({ L1: '200 A was read, where it carried 487 A at that time', L2: '' })
    // Both sections are rated 900 A.
    const over = '1,100 A was read, more than the 900 A that it may carry even for a time'
    expect(against(1100)).toEqual({ L1: over, L2: over })
  })
})

describe('a load of another season', () => {
  it('is no hint', () => {
    const load = (taken_at: string) => nearestLoadText({ nearest_load: { current_a: 400, taken_at, quality: null } }, '2026-06-01T10:00:00Z')
    expect(load('2026-05-02T10:00:00Z')).toBe('carried 400 A 30 days before')
    expect(load('2026-04-01T10:00:00Z')).toBe('')
  })
})

describe('a reading without a position that names a circuit nobody knows', () => {
  it('is offered on the circuits that its structures carry, and placed on none', async () => {
    const { reading: { placement }, candidates } = await itemOf('lost')
    expect(placement).toMatchObject({ state: 'review', circuit: null, splice_id: null })
    expect(candidates.map((c) => [c.circuit, c.structure_back, c.structure_ahead])).toEqual([['L1', '4', '5'], ['L2', '4', '5']])
    const notice = (await listUrgent(scope)).find((u) => u.reading_key === 'lost')
    expect(notice).toMatchObject({ says_circuit: '9999', placement_state: 'review', circuits: [{ circuit: 'L1' }, { circuit: 'L2' }] })
  })
})
