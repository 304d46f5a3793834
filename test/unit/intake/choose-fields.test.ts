import { describe, expect, it } from 'vitest'
import { guessMapping, withChosenFields, type RawRow } from '@/lib/intake/index'

const COLUMNS = ['Test ID', 'Side A (µΩ)', 'R left (mΩ)', 'R cond', 'Note']
const rows: RawRow[] = [{ row: 1, raw: '', cells: { 'Test ID': 'K-1', 'Side A (µΩ)': '8', 'R left (mΩ)': '0.012', 'R cond': '21.8', Note: 'x' } }]
const guessed = guessMapping(COLUMNS, rows, 'readings')
const fieldOf = (mapping: typeof guessed) => Object.fromEntries(mapping.columns.map(({ column, field }) => [column, field]))

describe('what a person says about single fields', () => {
  it('stands over the guess, with the unit of the header, in the order of the file', () => {
    const mapping = withChosenFields(guessed, [{ field: 'conductor_uohm', column: 'R cond' }, { field: 'side_a_uohm', column: 'r left (mΩ) ' }], COLUMNS, rows)
    expect(mapping.columns.map(({ column }) => column)).toEqual(COLUMNS)
    expect(fieldOf(mapping)).toEqual({ 'Test ID': 'reading_id', 'Side A (µΩ)': null, 'R left (mΩ)': 'side_a_uohm', 'R cond': 'conductor_uohm', Note: 'note' })
    expect(mapping.columns[2]).toEqual({ column: 'R left (mΩ)', field: 'side_a_uohm', unit: 'mohm', basis: 'user' })
    expect(mapping.columns[3]).toEqual({ column: 'R cond', field: 'conductor_uohm', basis: 'user' }) // no unit is said: what is taken is told
  })

  it('keeps a column that the file does not have, for the refusal to name it', () => {
    expect(withChosenFields(guessed, [{ field: 'phase', column: 'Ph' }], COLUMNS, rows).columns.at(-1)).toMatchObject({ column: 'Ph', field: 'phase' })
  })

  it('changes nothing where nothing is said', () => {
    expect(withChosenFields(guessed, [], COLUMNS, rows)).toBe(guessed)
  })
})
