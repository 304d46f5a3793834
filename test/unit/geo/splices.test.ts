import { describe, expect, it } from 'vitest'
import type { PhasingRow } from '@/lib/geo'
import { at, codes, place, placeOne, splice } from '../../fixtures/geo/double-circuit'

/** On Elk, well clear of Moose; the receiver is good to a metre, so reach along the line is 17 m. */
const onElk = (alongM: number, fields = {}) => at(alongM, -6, { sigmaM: 1, ...fields })

describe('the splice of a placed reading', () => {
  it('is the one of that circuit and phase within 15 m and two sigma along the line', () => {
    const splices = [splice(1, 'Elk', 716), splice(2, 'Moose', 700), splice(3, 'Elk', 701, { phase: 'B' })]
    expect(placeOne(onElk(700), splices)).toMatchObject({ state: 'placed', spliceId: 1 })
    expect(placeOne(onElk(700, { phase: 'B' }), splices)).toMatchObject({ state: 'placed', spliceId: 3 })
  })

  it('beyond that reach is a new one, found by survey', () => {
    const { outcomes, newSplices } = place([onElk(700)], [splice(1, 'Elk', 718)])
    expect(outcomes[0]).toMatchObject({ state: 'placed', newSpliceKey: newSplices[0]!.key })
    expect(codes(outcomes[0]!)).toContain('new-splice')
    expect(newSplices).toMatchObject([{ circuitId: 1, phase: 'A', readings: 1, structureBack: '3', structureAhead: '4' }])
    expect(newSplices[0]!.lineDistanceM).toBeCloseTo(700, 1)
  })

  it('goes to a person where two are in reach', () => {
    const outcome = placeOne(onElk(700), [splice(1, 'Elk', 690), splice(2, 'Elk', 705)])
    expect(outcome).toMatchObject({ state: 'review', reasons: [{}, { code: 'two-splices-in-reach', values: { count: 2 } }].slice(1) })
    expect(outcome.candidates[0]!.splices.map(({ spliceId, alongM }) => [spliceId, Math.round(alongM)])).toEqual([
      [2, 5],
      [1, -10],
    ])
  })

  it('is told by its subconductor where both say theirs', () => {
    const splices = [splice(1, 'Elk', 700, { subconductor: '1' }), splice(2, 'Elk', 701, { subconductor: '2' })]
    expect(placeOne(onElk(700, { subconductor: '2' }), splices)).toMatchObject({ spliceId: 2 })
    expect(placeOne(onElk(700), splices).state).toBe('review')
  })
})

describe('without a phase', () => {
  const blank = { phase: undefined }

  it('one splice in reach is enough, and the phase is not confirmed', () => {
    const outcome = placeOne(onElk(700, blank), [splice(1, 'Elk', 702, { phase: 'B' })])
    expect(outcome).toMatchObject({ state: 'placed', spliceId: 1 })
    expect(codes(outcome)).toContain('phase-not-confirmed')
  })

  it('splices of several phases in reach are a matter for a person', () => {
    const outcome = placeOne(onElk(700, blank), [splice(1, 'Elk', 702, { phase: 'B' }), splice(2, 'Elk', 699)])
    expect(outcome.state).toBe('review')
    expect(codes(outcome)).toContain('phase-missing')
  })

  it('no new splice is made', () => {
    expect(codes(placeOne(onElk(700, blank)))).toContain('phase-missing')
  })

  it('but the position names the conductor as well: a new splice keeps it, phase not confirmed', () => {
    const { outcomes, newSplices } = place([onElk(700, { ...blank, position: 'top' }), onElk(701, { ...blank, position: 'bottom' })])
    expect(outcomes.every(({ state, phase }) => state === 'placed' && phase === undefined)).toBe(true)
    expect(newSplices.map(({ position, phase }) => [position, phase])).toEqual([
      ['bottom', undefined],
      ['top', undefined],
    ])
    expect(
      placeOne(onElk(700, { ...blank, position: 'top' }), [splice(1, 'Elk', 700, { phase: undefined, position: 'bottom' })]).spliceId,
    ).toBeUndefined()
  })

  it('a splice whose own phase is not known takes the reading, phase not confirmed', () => {
    const outcome = placeOne(onElk(700), [splice(1, 'Elk', 702, { phase: undefined })])
    expect(outcome).toMatchObject({ state: 'placed', spliceId: 1 })
    expect(codes(outcome)).toContain('phase-not-confirmed')
  })
})

describe('the phasing table', () => {
  /** Phases roll at structure 6. */
  const rows: PhasingRow[] = [
    { circuitId: 1, startM: 0, endM: 1_499, position: 'top', phase: 'A' },
    { circuitId: 1, startM: 1_501, endM: 3_000, position: 'top', phase: 'C' },
  ]

  it('turns a position into a phase, on both sides of a transposition', () => {
    const early = placeOne(onElk(700, { phase: undefined, position: 'Top' }), [], rows)
    expect(early).toMatchObject({ state: 'placed', phase: 'A' })
    expect(codes(early)).toContain('phase-from-position')
    expect(placeOne(onElk(2_000, { phase: undefined, position: 'top' }), [], rows).phase).toBe('C')
  })

  it('does not speak for other circuits, other positions or other sections', () => {
    const moose = at(700, 6, { sigmaM: 1, phase: undefined, position: 'top' })
    expect(placeOne(moose, [], rows).phase).toBeUndefined()
    expect(placeOne(onElk(700, { phase: undefined, position: 'middle' }), [], rows).phase).toBeUndefined()
    expect(
      placeOne(
        onElk(700, { phase: undefined, position: 'top' }),
        [],
        rows.map((row) => ({ ...row, sectionId: 9 })),
      ).phase,
    ).toBeUndefined()
  })

  it('against the phase that the reading gives is a contradiction for a person', () => {
    const outcome = placeOne(onElk(700, { phase: 'B', position: 'top' }), [], rows)
    expect(outcome.state).toBe('review')
    expect(outcome.reasons[0]).toMatchObject({ code: 'declared-contradicts-position', values: { field: 'phase', value: 'B', known: 'A' } })
  })

  it('says the phase of known splices too', () => {
    const known = splice(1, 'Elk', 702, { phase: undefined, position: 'top' })
    expect(placeOne(onElk(700), [known], rows)).toMatchObject({ spliceId: 1 })
    expect(placeOne(onElk(700, { phase: 'B' }), [known], rows).spliceId).toBeUndefined()
  })
})

describe('readings of one new splice', () => {
  it('share a key; those beyond reach or on another phase do not', () => {
    const { outcomes, newSplices } = place([onElk(700), onElk(708), onElk(760), onElk(704, { phase: 'B' })])
    const keys = outcomes.map(({ newSpliceKey }) => newSpliceKey)
    expect(keys[0]).toBe(keys[1])
    expect(new Set(keys).size).toBe(3)
    expect(newSplices.map(({ readings }) => readings).sort()).toEqual([1, 1, 2])
    expect(newSplices.find(({ readings }) => readings === 2)!.lineDistanceM).toBeCloseTo(704, 1)
  })

  it('of one pass with different labels or pictures never become one splice unasked', () => {
    for (const field of ['spliceLabel', 'photo'] as const) {
      const { outcomes, newSplices } = place([
        onElk(700, { [field]: 'one' }),
        onElk(701, { [field]: 'two' }),
        onElk(700.5, { [field]: 'one' }),
      ])
      expect(newSplices).toHaveLength(2)
      expect(outcomes[0]!.newSpliceKey).toBe(outcomes[2]!.newSpliceKey)
      expect(outcomes[0]!.newSpliceKey).not.toBe(outcomes[1]!.newSpliceKey)
      expect(codes(outcomes[1]!)).toContain('same-pass-different-label')
    }
  })

  it('of one label are one splice whatever their pictures, and it takes the label', () => {
    const { newSplices } = place([onElk(700, { spliceLabel: 'E-9', photo: 'one' }), onElk(701, { spliceLabel: 'E-9', photo: 'two' })])
    expect(newSplices).toMatchObject([{ label: 'E-9', readings: 2 }])
  })

  it('of two passes are one splice: each pass has a picture of its own', () => {
    const { newSplices } = place([onElk(700, { photo: 'one' }), onElk(701, { photo: 'two', survey: 'autumn' })])
    expect(newSplices).toHaveLength(1)
  })

  it('have keys that depend on content, not on the order of rows', () => {
    const points = [onElk(700, { index: 0 }), onElk(760, { index: 1 }), onElk(704, { index: 2, phase: 'B' })]
    const ahead = place(points)
    const back = place([...points].reverse())
    expect(back.newSplices).toEqual(ahead.newSplices)
  })
})

describe('readings of one pass at one known splice', () => {
  const known = [splice(1, 'Elk', 700)]

  it('with different pictures go to a person, all of them', () => {
    const { outcomes } = place([onElk(700, { photo: 'one' }), onElk(701, { photo: 'two' }), onElk(699)], known)
    expect(outcomes.map(({ state }) => state)).toEqual(['review', 'review', 'placed'])
    expect(codes(outcomes[0]!)).toContain('same-pass-different-label')
  })

  it('repeated without pictures, or seen again by another survey, are its readings', () => {
    const { outcomes } = place(
      [onElk(700), onElk(701), onElk(702, { photo: 'one' }), onElk(699, { photo: 'two', survey: 'autumn' })],
      known,
    )
    expect(outcomes.every(({ spliceId }) => spliceId === 1)).toBe(true)
  })

  it('farther apart than one fitting is go to a person', () => {
    expect(place([onElk(686), onElk(713)], known).outcomes.every(({ state }) => state === 'review')).toBe(true)
  })

  it('that name the splice are its readings whatever their pictures', () => {
    const named = [splice(1, 'Elk', 700, { label: 'E-1' })]
    const { outcomes } = place([onElk(700, { photo: 'one', spliceLabel: 'E-1' }), onElk(701, { photo: 'two', spliceLabel: 'E-1' })], named)
    expect(outcomes.every(({ spliceId, state }) => state === 'placed' && spliceId === 1)).toBe(true)
  })
})
