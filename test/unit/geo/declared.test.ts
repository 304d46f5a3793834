import { describe, expect, it } from 'vitest'
import { governingReason, placeReadings, reasonText, reviewCause, type PointToPlace } from '@/lib/geo'
import { at, codes, network, placeOne, splice } from '../../fixtures/geo/double-circuit'
import { beside, reading, sketch, vertices } from '../../fixtures/geo/lines'

const NOWHERE: Partial<PointToPlace> = {}
const said = (fields: Partial<PointToPlace>): PointToPlace => reading({ ...NOWHERE, ...fields })

describe('what a reading declares fixes its place without a position', () => {
  it('structures with an offset ahead of the structure back', () => {
    const outcome = placeOne(said({ circuit: 'Elk', structureBack: '3', structureAhead: '4', offsetFromStructureM: 120 }))
    expect(outcome).toMatchObject({
      state: 'placed',
      method: 'declared',
      chosen: { circuit: 'Elk', structureBack: '3', structureAhead: '4' },
    })
    expect(outcome.chosen!.lineDistanceM).toBeCloseTo(720, 6)
    expect(outcome.chosen!.offsetFromStructureM).toBeCloseTo(120, 6)
    expect(codes(outcome)).toContain('declared-structures')
  })

  it('a fraction of the span, from the structure back', () => {
    const outcome = placeOne(said({ circuit: 'Elk', structureBack: '3', structureAhead: '4', spanFraction: 1 / 3 }))
    expect(outcome.chosen!.lineDistanceM).toBeCloseTo(700, 6)
  })

  it('structures named the other way round measure from the one named back', () => {
    const outcome = placeOne(said({ circuit: 'Elk', structureBack: '4', structureAhead: '3', offsetFromStructureM: 120 }))
    expect(outcome.chosen!.lineDistanceM).toBeCloseTo(780, 6)
  })

  it('the structure back alone means the span ahead of it', () => {
    expect(placeOne(said({ circuit: 'Elk', structureBack: 'STR 3', offsetFromStructureM: 20 })).chosen!.lineDistanceM).toBeCloseTo(620, 6)
  })

  it('a splice by its label, in any case of letters', () => {
    const outcome = placeOne(said({ spliceLabel: ' elk-07 ' }), [splice(70, 'Elk', 1_000, { label: 'ELK-07' })])
    expect(outcome).toMatchObject({ state: 'placed', method: 'declared', spliceId: 70, chosen: { circuit: 'Elk', lineDistanceM: 1_000 } })
    expect(codes(outcome)).toContain('declared-splice')
  })

  it('the only splice of that phase in the span it names', () => {
    const splices = [splice(1, 'Elk', 700), splice(2, 'Elk', 760, { phase: 'B' }), splice(3, 'Moose', 710)]
    expect(placeOne(said({ circuit: 'Elk', structureBack: '3', structureAhead: '4' }), splices)).toMatchObject({
      state: 'placed',
      spliceId: 1,
    })
    expect(codes(placeOne(said({ circuit: 'Elk', structureBack: '3', structureAhead: '4', phase: 'C' }), splices))).toContain('no-position')
  })

  it('the circuit on the left of shared structures', () => {
    const fields = { structureBack: '3', structureAhead: '4', offsetFromStructureM: 10 }
    expect(placeOne(said({ ...fields, circuitSide: 'left' }))).toMatchObject({ state: 'placed', chosen: { circuit: 'Elk' } })
    expect(placeOne(said({ ...fields, circuitSide: 'Right circuit' }))).toMatchObject({ state: 'placed', chosen: { circuit: 'Moose' } })
    expect(placeOne(said(fields))).toMatchObject({ state: 'review' })
  })

  it('an unknown circuit nowhere: its structures are offered on every circuit that has them, for a person', () => {
    const outcome = placeOne(said({ circuit: '9999', structureBack: '3', structureAhead: '4' }))
    expect(outcome).toMatchObject({ state: 'review', candidates: [{ circuit: 'Elk' }, { circuit: 'Moose' }] })
    expect(outcome.chosen).toBeUndefined()
    expect(codes(outcome)).toEqual(['declared-unknown', 'no-position'])
    expect(outcome.candidates.every((c) => c.structureBack === '3' && c.structureAhead === '4')).toBe(true)
    expect(placeOne(said({ circuit: '9999', structureBack: '3', structureAhead: '4', offsetFromStructureM: 20, phase: 'A' }), [splice(1, 'Elk', 620)]).state).toBe('review')
    expect(placeOne(said({ circuit: '9999', structureBack: '777' })).candidates).toEqual([])
    expect(placeOne(said({ circuit: '9999' })).candidates).toEqual([])
  })

  it('a splice of another circuit than it names: the two disagree, whatever is offered', () => {
    const known = [splice(1, 'Elk', 621, { label: 'E-1' })]
    const outcome = placeOne(said({ circuit: 'Moose', structureBack: '3', structureAhead: '4', spliceLabel: 'E-1' }), known)
    expect(outcome).toMatchObject({ state: 'review', candidates: [{ circuit: 'Elk' }] })
    expect(outcome.reasons[0]).toMatchObject({ code: 'declared-contradicts-declared' })
    expect(reasonText(outcome.reasons[0]!, String)).toBe('The reading names splice E-1, which is on circuit Elk, and circuit Moose: the two do not agree.')
    expect(reviewCause(outcome.reasons, outcome.candidates)).toBe('names-contradict')
    expect(governingReason(outcome.reasons, outcome.candidates)?.code).toBe('declared-contradicts-declared')
  })

  it('an unknown circuit where the splice that it names stands once: the splice leads, and the circuit is named', () => {
    const once = [splice(1, 'Elk', 621, { label: 'E-1' })]
    const row = said({ circuit: '9999', structureBack: '3', structureAhead: '4', spliceLabel: 'E-1' })
    const outcome = placeOne(row, once)
    expect(outcome.candidates.map(({ circuit }) => circuit)).toEqual(['Elk'])
    expect(outcome.state).toBe('review')
    expect(reasonText(outcome.reasons[0]!, String)).toBe('The reading names circuit 9999, which is not known, and splice E-1, which there is once: on circuit Elk.')
    const twice = placeOne(row, [...once, splice(2, 'Moose', 621, { label: 'E-1' })])
    expect(codes(twice)).toEqual(['declared-unknown', 'no-position'])
  })

  it('aliases and labels that are text', () => {
    const tower = vertices(-110, 46, [90, 300], [90, 300])
    const base = sketch({ circuit: 'Elk', lonLat: tower, structures: ['045', '45A', '12/3'] })
    const point = said({ structureBack: '045', structureAhead: '45a', offsetFromStructureM: 5 })
    expect(placeReadings(base, [point], [], []).outcomes[0]).toMatchObject({
      state: 'placed',
      chosen: { structureBack: '045', structureAhead: '45A' },
    })
    expect(codes(placeReadings(base, [said({ structureBack: '45', offsetFromStructureM: 5 })], [], []).outcomes[0]!)).toEqual([
      'declared-unknown',
      'no-position',
    ])
  })
})

describe('what nobody knows goes to review with the name', () => {
  it.each([
    ['circuit', { circuit: 'Bison' }, 'circuit', 'Bison'],
    ['section', { circuit: 'Elk', section: 'Tap 9' }, 'section', 'Tap 9'],
    ['structure', { circuit: 'Elk', structureBack: '99', structureAhead: '4' }, 'structure_back', '99'],
    ['structure ahead', { circuit: 'Elk', structureBack: '3', structureAhead: '99' }, 'structure_ahead', '99'],
  ])('an unknown %s', (_, fields, field, value) => {
    const outcome = placeOne(at(720, -6, fields))
    expect(outcome.state).toBe('review')
    expect(outcome.reasons).toContainEqual(
      expect.objectContaining({ code: 'declared-unknown', values: expect.objectContaining({ field, value }) as object }),
    )
    expect(outcome.candidates.length).toBeGreaterThan(0)
  })

  it('a splice label that is not known, beside a splice with another', () => {
    const outcome = placeOne(at(720, -9, { circuit: 'Elk', spliceLabel: 'E-9' }), [splice(1, 'Elk', 721, { label: 'E-1' })])
    expect(outcome.state).toBe('review')
    expect(outcome.reasons[0]).toMatchObject({ code: 'declared-unknown', values: { field: 'splice_id', value: 'E-9', known: 'E-1' } })
  })

  it('but a label that is not known names a new splice where none is in reach', () => {
    expect(placeOne(at(720, -9, { circuit: 'Elk', spliceLabel: 'E-9' }))).toMatchObject({
      state: 'placed',
      newSpliceKey: expect.stringContaining('e-9') as string,
    })
  })
})

describe('what contradicts the position by more than its accuracy is never silently believed', () => {
  it('structures far from the position', () => {
    const outcome = placeOne(at(2_000, -6, { circuit: 'Elk', structureBack: '3', structureAhead: '4' }))
    expect(outcome.state).toBe('review')
    expect(outcome.reasons[0]).toMatchObject({ code: 'declared-contradicts-position', values: { field: 'structure_back', value: '3' } })
    expect(outcome.reasons[0]!.values!.distanceM).toBeCloseTo(1_100, 0)
    expect(outcome.candidates.map(({ structureBack }) => structureBack)).toEqual(expect.arrayContaining(['7', '3']))
  })

  it('an offset that leads 30 m away is still within 30 m, 60 m is not', () => {
    const fields = { circuit: 'Elk', structureBack: '3', structureAhead: '4', offsetFromStructureM: 120 }
    expect(placeOne(at(745, -6, fields))).toMatchObject({ state: 'placed' })
    expect(placeOne(at(745, -6, fields)).chosen!.lineDistanceM).toBeCloseTo(720, 6)
    expect(placeOne(at(780, -6, fields)).state).toBe('review')
  })

  it('an offset that leads out of its span', () => {
    const outcome = placeOne(said({ circuit: 'Elk', structureBack: '3', structureAhead: '4', offsetFromStructureM: 420 }))
    expect(outcome.reasons[0]).toMatchObject({ code: 'declared-contradicts-position', values: { field: 'offset_from_structure_m' } })
  })

  it('a splice elsewhere on the line', () => {
    const outcome = placeOne(at(2_000, -6, { spliceLabel: 'E-1' }), [splice(1, 'Elk', 721, { label: 'E-1' })])
    expect(outcome).toMatchObject({
      state: 'review',
      reasons: [{ code: 'declared-contradicts-position', values: { field: 'splice_id', value: 'E-1' } }],
    })
  })

  it('a splice of another circuit than the one named, or on another phase', () => {
    const known = [splice(1, 'Elk', 721, { label: 'E-1' })]
    expect(placeOne(at(721, 6, { circuit: 'Moose', spliceLabel: 'E-1' }), known).reasons[0]).toMatchObject({
      values: { field: 'splice_id', against: 'circuit' },
    })
    expect(placeOne(at(721, -6, { spliceLabel: 'E-1', phase: 'B' }), known).reasons[0]).toMatchObject({
      values: { field: 'phase', value: 'B', known: 'A' },
    })
  })

  it('a circuit 700 m away, with the distance', () => {
    const far = sketch(
      { circuit: 'Elk', lonLat: vertices(-110, 46, [90, 1_000]) },
      { circuit: 'Wolf', lonLat: vertices(-110, 46.0063, [90, 1_000]) },
    )
    const [outcome] = placeReadings(
      far,
      [reading({ ...beside(vertices(-110, 46, [90, 1_000]), 500, 0), circuit: 'Wolf' })],
      [],
      [],
    ).outcomes
    expect(outcome).toMatchObject({
      state: 'review',
      reasons: [{ code: 'declared-contradicts-position', values: { field: 'circuit', value: 'Wolf' } }],
    })
    expect(outcome!.reasons[0]!.values!.distanceM).toBeCloseTo(700, -1)
  })

  it('the circuit beside it, where the receiver is good enough to know', () => {
    const sure = placeOne(at(720, 6, { circuit: 'Elk', sigmaM: 1 }))
    expect(sure).toMatchObject({ state: 'review' })
    expect(sure.reasons[0]).toMatchObject({ code: 'declared-contradicts-position', values: { value: 'Elk', other: 'Moose' } })
    expect(placeOne(at(720, -2, { circuit: 'Elk' }))).toMatchObject({ state: 'placed', method: 'declared', chosen: { circuit: 'Elk' } })
  })
})

it('a section alone is evidence where its name is its own', () => {
  const tap = sketch(
    { circuit: 'Elk', lonLat: vertices(-110, 46, [90, 600]) },
    { circuit: 'Elk', section: 'Lodge tap', lonLat: vertices(-110, 46, [60, 600]) },
  )
  const position = beside(vertices(-110, 46, [90, 600]), 10, 0)
  const [outcome] = placeReadings(tap, [reading({ ...position, section: 'Lodge tap' })], [], []).outcomes
  expect(outcome).toMatchObject({ state: 'placed', chosen: { section: 'Lodge tap' } })
})

it('the network under test has both circuits on the same structures', () => {
  expect(network.sections.map(({ circuit }) => circuit)).toEqual(['Elk', 'Moose'])
  expect(network.structures.get('3')).toHaveLength(2)
})
