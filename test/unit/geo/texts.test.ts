import { describe, expect, it } from 'vitest'
import { positionText, reasonText, type PlacementReason } from '@/lib/geo'
import { structureKey } from '@/lib/geo/network/labels'

const metres = (lengthM: number): string => `${Math.round(lengthM)} m`
const feet = (lengthM: number): string => `${Math.round(lengthM / 0.3048)} ft`

describe("a position in the trade's words", () => {
  it.each([
    [
      { structureBack: '45', structureAhead: '46', offsetFromStructureM: 123.4, phase: 'A', circuitSide: 'left' },
      'STR 45-46 + 123 m, phase A, left circuit',
    ],
    [
      { structureBack: '12/3', offsetFromStructureM: 4, position: 'top', subconductor: '2' },
      'STR 12/3 + 4 m, phase not confirmed, top, subconductor 2',
    ],
    [{ structureBack: '12', structureAhead: '13', offsetFromStructureM: 1.5, phase: 'A' }, 'STR 12-13, at STR 12, phase A'],
    [{ section: 'Lodge tap', lineDistanceM: 1_200, phase: 'C' }, 'Lodge tap, line distance 1200 m, phase C'],
    [
      { section: 'main', structureAhead: '1', lineDistanceM: 40, offsetFromStructureM: 40, phase: 'B' },
      'before STR 1, line distance 40 m, phase B',
    ],
  ])('%j', (position, text) => expect(positionText(position, metres)).toBe(text))

  it("in the user's units", () => {
    expect(positionText({ structureBack: '45', structureAhead: '46', offsetFromStructureM: 123.4, phase: 'A' }, feet)).toBe(
      'STR 45-46 + 405 ft, phase A',
    )
  })
})

describe('reasons as sentences', () => {
  it.each<[PlacementReason, string]>([
    [{ code: 'declared-splice', values: { splice: 'E-1' } }, 'The reading names splice E-1.'],
    [{ code: 'declared-structures', values: { back: '3', ahead: '4' } }, 'The reading names structures 3 and 4.'],
    [
      { code: 'declared-contradicts-position', values: { field: 'structure_back', value: '3', distanceM: 1_100 } },
      'The reading names structure 3, but its position is 1100 m away from it.',
    ],
    [
      { code: 'declared-contradicts-position', values: { field: 'circuit', value: 'Elk', other: 'Moose', probability: 0.2 } },
      'The reading names Elk, but its position speaks for Moose.',
    ],
    [
      { code: 'declared-contradicts-position', values: { field: 'phase', value: 'B', known: 'A', position: 'top' } },
      'The reading says phase B; the phasing table has phase A in position top here.',
    ],
    [
      { code: 'declared-unknown', values: { field: 'structure_back', value: '99', circuit: 'Elk' } },
      'The reading names structure 99, which is not known on circuit Elk.',
    ],
    [
      { code: 'declared-unknown', values: { field: 'splice_id', value: 'E-9', known: 'E-1' } },
      'The reading names splice E-9, which is not known; splice E-1 is known here.',
    ],
    [{ code: 'track-matched', values: { count: 8 } }, 'Matched along the line together with 7 other readings of the same survey.'],
    [{ code: 'track-matched', values: { count: 8, crew: 'two' } }, 'Matched along the line together with 7 other readings of the same crew.'],
    [
      { code: 'circuit-by-track', values: { circuit: 'Elk', others: 'Moose' } },
      'Circuit Elk is taken from the readings before and after it: by its own position it could be on Moose as well.',
    ],
    [{ code: 'track-offset', values: { offsetM: -42 } }, 'The readings lie about 42 m left of the line, looking ahead.'],
    [
      { code: 'low-probability', values: { probability: 0.899, offsetM: 6, sigmaM: 4 } },
      '89% sure of the circuit: the best fit is 6 m from its conductor, and the position is good to about 4 m.',
    ],
    [{ code: 'nothing-in-reach', values: { reachM: 30 } }, 'No line lies within 30 m of the position.'],
    [{ code: 'two-splices-in-reach', values: { count: 2, reachM: 23 } }, '2 splices lie within 23 m along the line: say which one it is.'],
    [{ code: 'position-zero' }, 'The position is 0, 0: the receiver had no fix.'],
  ])('%j', (reason, text) => expect(reasonText(reason, metres)).toBe(text))

  const all: PlacementReason['code'][] = [
    'declared-splice',
    'declared-circuit',
    'declared-structures',
    'declared-contradicts-position',
    'declared-contradicts-declared',
    'declared-unknown',
    'track-matched',
    'track-broken',
    'track-residuals',
    'track-offset',
    'circuit-by-track',
    'circuits-in-turn',
    'low-probability',
    'nothing-in-reach',
    'two-splices-in-reach',
    'phase-missing',
    'phase-from-position',
    'phase-not-confirmed',
    'shared-structures-no-offset',
    'no-position',
    'position-zero',
    'new-splice',
    'same-pass-different-label',
    'person-accepted',
    'person-dragged',
    'person-rejected',
  ]
  it.each(all)("%s is a sentence without a statistician's words", (code) => {
    const text = reasonText(
      { code, values: { count: 3, offsetM: 1, reachM: 30, probability: 0.5, sigmaM: 4, circuit: 'Elk', other: 'Moose' } },
      metres,
    )
    expect(text).toMatch(/^[A-Z0-9].*\.$/)
    expect(text).not.toMatch(/posterior|prior|likelihood|probab|chi-square|sigma|\bsafe\b/i)
  })
})

describe('structure labels', () => {
  it('are text: zeros, slashes and letters stay, words in front of the number do not matter', () => {
    expect(['045', ' STR 045', 'Tower #045', 'str.045'].map(structureKey)).toEqual(['045', '045', '045', '045'])
    expect(structureKey('45')).not.toBe(structureKey('045'))
    expect(structureKey('12/3')).toBe('12/3')
    expect(structureKey('Tower Hill')).toBe('tower hill')
  })
})
