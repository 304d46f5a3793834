import { describe, expect, it } from 'vitest'
import { guessMapping, kindDoubt, type Mapping, type RawRow, templateFields } from '@/lib/intake/index'

const rowsOf = (columns: readonly string[], ...values: string[][]): RawRow[] => values.map((cells, at) => (
  { row: at + 1, cells: Object.fromEntries(columns.map((column, i) => [column, cells[i] ?? ''])), raw: cells.join(',') }))

const fieldsOf = (mapping: Mapping) => Object.fromEntries(mapping.columns.map(({ column, field }) => [column, field]))

function doubtOf(header: string, row: string, survey: string | null = null) {
  const columns = header.split(',')
  const rows = rowsOf(columns, row.split(','))
  const mapping = guessMapping(columns, rows)
  return { mapping, doubt: kindDoubt(mapping, rows, new Set(), survey) }
}

describe('a log of readings under plain words', () => {
  it('is understood, with its unit in brackets', () => {
    const { mapping, doubt } = doubtOf('Shot at,Ckt,From pole,To pole,Ph,X,Y,Dist from back (ft),Side one (uohm),Side two (uohm),Bare wire (uohm),Amps',
      '2026-08-11 09:30,7102,Q009,Q010,C,-99.9,44.9,295.3,30,18,12,400')
    expect(mapping.kind).toBe('readings')
    expect(doubt).toBeNull()
    expect(fieldsOf(mapping)).toEqual({
      'Shot at': 'taken_at', Ckt: 'circuit', 'From pole': 'structure_back', 'To pole': 'structure_ahead', Ph: 'phase', X: 'lon', Y: 'lat',
      'Dist from back (ft)': 'offset_from_structure_m', 'Side one (uohm)': 'side_a_uohm', 'Side two (uohm)': 'side_b_uohm', 'Bare wire (uohm)': 'conductor_uohm', Amps: 'line_current_a',
    })
  })

  it('is understood in German too', () => {
    const { mapping } = doubtOf('Messzeit,Leitung,Mast von,Mast bis,Phase,Seite A (µΩ),Seite B (µΩ),Seil (µΩ),Strom (A)', '10.09.2026 10:10,7101,5,6,A,9.8,10.4,11.9,312')
    expect(mapping.kind).toBe('readings')
    expect(Object.values(fieldsOf(mapping))).toEqual(['taken_at', 'circuit', 'structure_back', 'structure_ahead', 'phase', 'side_a_uohm', 'side_b_uohm', 'conductor_uohm', 'line_current_a'])
  })

  it('is never taken for splices where its resistances are not understood, and says which columns speak', () => {
    const { mapping, doubt } = doubtOf('Ckt,From pole,To pole,Ph,X,Y,Value P (uohm),Value Q (uohm),Value R (uohm)', '7102,Q009,Q010,C,-99.9,44.9,30,18,12')
    expect(mapping.kind).not.toBe('readings')
    expect(doubt).toEqual({ isReadings: true, why: "The columns 'Value P (uohm)', 'Value Q (uohm)' and 'Value R (uohm)' were not understood and speak for readings." })
  })
})

describe('the kind of a file is asked for', () => {
  const places = ['Ckt,From pole,To pole,Ph', '7102,Q009,Q010,C'] as const
  it.each([
    ['Delta', '4'], ['Ratio', '2.5'], ['Rise (K)', '4'], ['Value (A)', '400'], ['Shot moment', '2026-08-11 09:30'], ['When seen', '2026-08-11T09:30:00Z'],
  ])('where it has places and a column %s', (column, cell) => {
    expect(doubtOf(`${places[0]},${column}`, `${places[1]},${cell}`)).toMatchObject({ mapping: { kind: 'splices' }, doubt: { isReadings: false, why: expect.stringContaining(`'${column}'`) } })
  })

  it.each(['Value (µΩ)', 'Value (mΩ)', 'Spot (°C)', 'Spot °F', 'Widerstand', 'Tmax Kelvin'])('where it is a list of splices with a column %s', (column) => {
    expect(doubtOf(`${places[0]},Splice No,Yr Installed,${column}`, `${places[1]},SP-1,1998,30`).doubt).toMatchObject({ isReadings: false })
  })

  it('where a survey is named for what has none', () => {
    expect(doubtOf(...places, 'Feet survey').doubt).toEqual({ isReadings: false, why: "A survey is named, 'Feet survey', and splices have none." })
    expect(doubtOf('survey,circuit,structure_from,structure_to,surveyed_on,method', 'x,7101,1,2,2026-05-04,patrol', 'Spring').doubt).toBeNull()
  })
})

describe('a kind is guessed still', () => {
  it.each(['structures', 'splices', 'phasing', 'crossings', 'extents', 'loads'] as const)('of the template of %s', (kind) => {
    const columns = templateFields(kind).map(({ name }) => name)
    expect(kindDoubt(guessMapping(columns, []), [], new Set(), null)).toBeNull()
  })

  it.each([
    ['Splice No,Ckt,Back Pole,Fwd Pole,Yr Installed,Last ratio', 'SP-1,7101,5,6,1998,1.2', 'splices'], ['Ckt,Pole Nbr,GPS X,GPS Y,Height (ft)', '7101,5,-97,36,80', 'structures'],
  ])('of %s', (header, row, kind) => {
    expect(doubtOf(header, row)).toMatchObject({ mapping: { kind }, doubt: null })
  })
})
