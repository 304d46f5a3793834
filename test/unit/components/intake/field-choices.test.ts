import { describe, expect, it } from 'vitest'
import { fieldChoices, labelOf } from '@/components/intake/field-choices'
import { faultText } from '@/components/intake/issue-words'
import { readingName } from '@/components/intake/reading-name'
import type { MappingJson } from '@/lib/contract/intake'

const mapping: MappingJson = {
  kind: 'readings',
  columns: [
    { column: 'Test', field: 'reading_id' },
    { column: 'Day', field: 'taken_at' },
    { column: 'R', field: null },
  ],
}
const found = (query: string, column = 'R') => fieldChoices('readings', mapping, column, query).flatMap((g) => g.choices.map((c) => c.label))

describe('what a column may be used as', () => {
  it('is grouped in the order of the work, every field once', () => {
    const groups = fieldChoices('readings', mapping, 'R', '')
    expect(groups.map((g) => g.group)).toEqual(['Where', 'When and who', 'Resistance', 'Infrared', 'Visual', 'Load and weather', 'Other'])
    const names = groups.flatMap((g) => g.choices.map((c) => c.name))
    expect(new Set(names).size).toBe(names.length)
    expect(names).toContain('side_a_uohm')
  })

  it('is found by the beginnings of its words, its heading, its unit or its own name', () => {
    expect(found('side a')).toEqual(['Side A resistance'])
    expect(found('µΩ')).toEqual(['Side A resistance', 'Side B resistance', 'Conductor resistance', 'Conductor resistance, other end'])
    expect(found('infra temp')).toEqual(['Splice temperature', 'Reference temperature', 'Reflected temperature set'])
    expect(found('side_b_uohm')).toEqual(['Side B resistance'])
  })

  it('is found by other people’s headers only where no own word fits', () => {
    expect(found('hot spot')).toEqual(['Splice temperature'])
    expect(found('cond')).toEqual(['Conductor resistance', 'Conductor resistance, other end', 'Electrode span on conductor', 'Reference temperature'])
    expect(found('zeppelin')).toEqual([])
  })

  it('says which other column it is used by, but for a date and a time that share one moment', () => {
    const choices = fieldChoices('readings', mapping, 'R', 'reading number').flatMap((g) => g.choices)
    expect(choices).toMatchObject([{ name: 'reading_id', takenBy: 'Test' }])
    expect(fieldChoices('readings', mapping, 'R', 'date').flatMap((g) => g.choices)).toMatchObject([{ name: 'taken_at', takenBy: null }])
  })

  it('has a label on the screen', () => {
    expect(labelOf('readings', 'ambient_c')).toBe('Air temperature')
    expect(labelOf('readings', 'geometry')).toBe('geometry')
    expect(labelOf('readings', null)).toBeNull()
  })
})

describe('what stands in a table', () => {
  it('is the fault alone, where row and field stand beside it', () => {
    expect(faultText("Row 7, conductor_uohm (column 'R: c'): '0' is not above zero.")).toBe("'0' is not above zero.")
    expect(faultText("Row 7, line 9, lat: the position '1, 2' is none.")).toBe("The position '1, 2' is none.")
    expect(faultText("Row 7, line 9, conductor_uohm (column 'R: c'): '0' is not above zero.")).toBe("'0' is not above zero.")
    expect(faultText('Row 7, line 9: it has 5 cells.')).toBe('It has 5 cells.')
    expect(faultText('File: there are no rows under the header.')).toBe('There are no rows under the header.')
    expect(faultText('Row 7: the row is cut off.')).toBe('The row is cut off.')
    expect(faultText('Spans over 1,500 m.')).toBe('Spans over 1,500 m.')
  })

  it('names a reading without a number by its row, never by a hash', () => {
    expect(readingName('R-1', 9)).toBe('R-1')
    expect(readingName('5f0c3a9be1d24c7790ab11e2f3445566', 9, 'walk.csv')).toBe('row 9 of walk.csv')
    expect(readingName('5f0c3a9be1d24c7790ab11e2f3445566', undefined)).toBe('a reading without a number')
    expect(readingName('12345678', 9)).toBe('12345678')
  })
})
