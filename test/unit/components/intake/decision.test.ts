import { describe, expect, it } from 'vitest'
import { asDecision, decide, lacksReason, moved, newDecision, usualSplice } from '@/components/intake/review/decision'
import type { Candidate, ReviewItem } from '@/lib/contract/contract'
import { reading } from '@/test/fixtures/components/samples'

const candidate = (over: Partial<Candidate> = {}): Candidate => ({
  circuit_id: 3,
  circuit: 'Elm-Oak 1',
  section_id: 4,
  section: 'main',
  span_id: 9,
  structure_back: '45',
  structure_ahead: '46',
  line_distance_m: 13_123,
  offset_from_structure_m: 123,
  lon: -112.1,
  lat: 46.2,
  offset_m: 2,
  probability: 0.6,
  splices: [],
  ...over,
})
const splice = (splice_id: number, phase: string | null = null) => ({ splice_id, splice: `T-${splice_id}`, along_m: 3, phase })
const item = (candidates: Candidate[], fields: ReviewItem['reading']['fields'] = {}): ReviewItem => ({
  reading: reading({ fields }),
  cause: null,
  candidates,
  urgent: false,
  notice: null,
})

describe('a decision on a doubtful placement', () => {
  it('begins with the likeliest candidate, wherever it stands in the list', () => {
    expect(newDecision(item([candidate({ probability: 0.3 }), candidate({ probability: 0.7 })])).candidate).toBe(1)
  })

  it('sets aside without a reason only what is neither urgent nor critical', () => {
    const draft = newDecision(item([]))
    expect([lacksReason(draft, { urgent: true }), lacksReason({ ...draft, reason: ' ' }, { urgent: true })]).toEqual([true, true])
    expect([lacksReason(draft, { urgent: false }), lacksReason({ ...draft, reason: 'lead was off' }, { urgent: true })]).toEqual([false, false])
  })

  it('is at a mark that was searched for, on the circuit that stands there, and of several on none before somebody chooses', () => {
    const found = (...names: string[]) => decide(newDecision(item([])), { type: 'found', mark: { lon: -112, lat: 46 }, circuits: names.map((name, n) => ({ id: n + 5, name })) }, item([]))
    expect(asDecision(found('2310'), item([]))).toEqual({ ready: true, decision: { action: 'drag', lon: -112, lat: 46, circuit_id: 5 } })
    expect(asDecision(found(), item([]))).toEqual({ ready: true, decision: { action: 'drag', lon: -112, lat: 46 } })
    const both = found('2310', '2320')
    expect(asDecision(both, item([]))).toEqual({ ready: false, why: '2310 and 2320 stand there side by side: choose the circuit.' })
    expect(asDecision(decide(both, { type: 'circuit', circuitId: 6 }, item([])), item([]))).toMatchObject({ ready: true, decision: { circuit_id: 6 } })
    expect(decide(both, { type: 'cancel' }, item([]))).toMatchObject({ mark: null, standing: [] })
  })

  it('begins with nothing chosen where the numbers are urgent or critical, so that Enter places nothing', () => {
    const urgent = { ...item([candidate({ probability: 0.89 }), candidate({ probability: 0.11 })]), urgent: true }
    const draft = newDecision(urgent)
    expect(draft).toMatchObject({ candidate: null, splice: null })
    expect(asDecision(draft, urgent)).toMatchObject({ ready: false, why: 'Urgent or critical: choose where it belongs.' })
    expect(asDecision(decide(draft, { type: 'next-splice' }, urgent), urgent).ready).toBe(false)
    expect(asDecision(decide(draft, { type: 'candidate', index: 0 }, urgent), urgent)).toMatchObject({ decision: { action: 'accept', candidate: 0 } })
  })

  it('does not place an urgent one at a mark that nobody has moved', () => {
    const urgent = { ...item([candidate()]), urgent: true }
    const appeared = decide(newDecision(urgent), { type: 'move', from: { lon: -112.1, lat: 46.2 } }, urgent)
    expect(asDecision(appeared, urgent)).toMatchObject({ ready: false, why: expect.stringContaining('Move the mark') })
    const moved = decide(appeared, { type: 'mark', mark: { lon: -112.2, lat: 46.3 } }, urgent)
    expect(asDecision(moved, urgent)).toMatchObject({ decision: { action: 'drag' } })
    expect(asDecision(decide(appeared, { type: 'circuit', circuitId: 3 }, urgent), urgent)).toMatchObject({ decision: { action: 'drag', circuit_id: 3 } })
    expect(asDecision(decide(moved, { type: 'cancel' }, urgent), urgent).ready).toBe(false)
  })

  it('takes the one splice in reach, a new one where there is none, and none by itself where there are two', () => {
    expect(usualSplice(candidate({ splices: [splice(7)] }), null)).toBe(7)
    expect(usualSplice(candidate(), null)).toBe('new')
    expect(usualSplice(candidate({ splices: [splice(7), splice(8)] }), null)).toBeNull()
  })

  it('leaves out splices of another phase, and keeps those whose phase is not confirmed', () => {
    expect(usualSplice(candidate({ splices: [splice(7, 'A'), splice(8, 'B')] }), 'B')).toBe(8)
    expect(usualSplice(candidate({ splices: [splice(7, 'A')] }), 'B')).toBe('new')
    expect(usualSplice(candidate({ splices: [splice(7, null), splice(8, 'B')] }), 'B')).toBeNull()
  })

  it('cannot be said while two splices lie in reach and nobody has chosen', () => {
    const doubtful = item([candidate({ splices: [splice(7), splice(8)] })])
    const draft = newDecision(doubtful)
    expect(asDecision(draft, doubtful)).toMatchObject({ ready: false, why: expect.stringContaining('choose one of them') })
    expect(asDecision(decide(draft, { type: 'next-splice' }, doubtful), doubtful)).toEqual({
      ready: true,
      decision: { action: 'accept', candidate: 0, splice_id: 7 },
    })
  })

  it('goes round the splices in reach and the new one', () => {
    const doubtful = item([candidate({ splices: [splice(7), splice(8)] })])
    let draft = newDecision(doubtful)
    const seen = [0, 1, 2, 3].map(() => {
      draft = decide(draft, { type: 'next-splice' }, doubtful)
      return draft.splice
    })
    expect(seen).toEqual([7, 8, 'new', 7])
  })

  it('says what to do where no line lies in reach', () => {
    const lost = item([])
    expect(asDecision(newDecision(lost), lost)).toMatchObject({ ready: false, why: expect.stringContaining('move the mark') })
  })

  it('sends the mark once it was moved, with the phase that was set and the circuit that was chosen', () => {
    const doubtful = item([candidate()])
    let draft = decide(newDecision(doubtful), { type: 'move', from: { lon: -112.1, lat: 46.2 } }, doubtful)
    draft = decide(draft, { type: 'mark', mark: { lon: -112.2, lat: 46.3 } }, doubtful)
    draft = decide(draft, { type: 'phase', phase: 'C' }, doubtful)
    draft = decide(draft, { type: 'circuit', circuitId: 3 }, doubtful)
    expect(asDecision(draft, doubtful)).toEqual({
      ready: true,
      decision: { action: 'drag', lon: -112.2, lat: 46.3, circuit_id: 3, phase: 'C' },
    })
    expect(asDecision(decide(draft, { type: 'cancel' }, doubtful), doubtful)).toMatchObject({ decision: { action: 'accept' } })
  })

  it('knows the phase that the reading declares', () => {
    expect(newDecision(item([candidate()], { phase: 'B' })).phase).toBe('B')
    expect(newDecision(item([candidate()])).phase).toBeNull()
  })

  it('moves the mark by metres on the ground, east farther in degrees toward the pole', () => {
    // WGS84 at 60 degrees: a degree of longitude is 55.80 km, of latitude 111.41 km (computed from the ellipsoid).
    const at = moved({ lon: 10, lat: 60 }, 10, 10)
    expect((at.lon - 10) * 55_800).toBeCloseTo(10, 1)
    expect((at.lat - 60) * 111_412).toBeCloseTo(10, 1)
  })
})
