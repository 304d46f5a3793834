import { describe, expect, it } from 'vitest'
import { actText, doesText, staysText } from '@/components/intake/review/act-words'
import { bestOf, NewPlaces } from '@/lib/cases/review/best-of-each'
import { stayReason } from '@/lib/contract/review-acts'
import type { PlacementCandidate } from '@/lib/geo'

const candidate = (circuitId: number, probability: number, more: Partial<PlacementCandidate> = {}): PlacementCandidate => ({
  circuitId, circuit: `C${circuitId}`, sectionId: circuitId, section: 'main', spanId: 1, lineDistanceM: 100, offsetFromStructureM: 100, lon: 0, lat: 0, offsetM: 0,
  probability, splices: [], ...more,
})
const splice = (spliceId: number, phase?: string) => ({ spliceId, alongM: 1, ...(phase === undefined ? {} : { phase }) })
const waiting = { isUrgent: false, cause: 'off-the-line' as const, phase: 'A', candidates: [candidate(1, 0.8)] }

describe('the best candidate of a waiting reading', () => {
  it.each([
    ['urgent', { isUrgent: true }], ['no-candidate', { candidates: [] }],
    ['similar-circuits', { candidates: [candidate(1, 0.6), candidate(2, 0.3)] }],
    ['similar-circuits', { candidates: [candidate(1, 0.6), candidate(2, 0.1), candidate(2, 0.1)] }],
    ['similar-places', { candidates: [candidate(1, 0.5), candidate(1, 0.4)] }],
    ['several-splices', { candidates: [candidate(1, 0.8, { splices: [splice(1, 'A'), splice(2)] })] }],
    ['place-not-known', { cause: 'no-position' as const }],
  ])('is nobody’s to take unseen: %s', (stays, more) => {
    expect(bestOf({ ...waiting, ...more })).toEqual({ stays })
  })

  it('is the likeliest by far, on its one splice of the phase or on a new one', () => {
    const best = candidate(1, 0.9, { splices: [splice(7, 'A'), splice(8, 'B')] })
    expect(bestOf({ ...waiting, candidates: [candidate(2, 0.05), best] })).toEqual({ at: best, spliceId: 7 })
    expect(bestOf(waiting)).toMatchObject({ spliceId: null })
    expect(bestOf({ ...waiting, phase: null, candidates: [best] })).toEqual({ stays: 'several-splices' })
  })

  it('makes no two new splices that may be one', () => {
    const places = new NewPlaces()
    expect([places.take(1, 100, 'A'), places.take(1, 120, 'A'), places.take(1, 120, 'B'), places.take(1, 130, null), places.take(2, 100, 'A'), places.take(1, 130, 'A')])
      .toEqual([true, false, true, false, true, true])
  })
})

describe('the words of an act', () => {
  it('say how many stay and why, of every reason', () => {
    expect(staysText({ stays: [] })).toBe('')
    expect(staysText({ stays: [{ why: 'urgent', count: 1 }] })).toBe('1 stays in review: 1 urgent or critical by their own numbers.')
    for (const why of stayReason.options) expect(staysText({ stays: [{ why, count: 1_200 }] })).toMatch(/^1,200 stay in review: 1,200 [a-z]/)
  })

  it('say what it would do and what it did', () => {
    expect(doesText('accept-best', { settles: 2, new_splices: 1 })).toBe('2 readings would be placed on the best candidate of each, 1 on a new splice each:')
    expect(doesText('set-aside', { settles: 0, new_splices: 0 })).toBe('None of these readings can be set aside at once.')
    const act = {
      id: 1, action: 'set-aside' as const, reason: 'wrong line', choice: {}, actor: 'A', created_at: '', done_at: '', settled: 5, left_waiting: 1, undone_at: null, undone_by: null,
      restored: null, failure: null, job_id: 1,
    }
    expect(actText(act)).toBe('5 set aside: wrong line; 1 stayed')
    expect(actText({ ...act, undone_at: '', undone_by: 'B', restored: 4 })).toBe('5 set aside: wrong line; 1 stayed. Taken back by B: 4 wait again')
    expect(actText({ ...act, done_at: null, failure: 'the disk is full' })).toBe('Nothing was changed: the disk is full')
  })
})
