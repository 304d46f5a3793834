import { describe, expect, it } from 'vitest'
import { remediesOfMost, remedyOf, type Mapping } from '@/lib/intake/index'
import { readFile, readingCsv } from '@/test/fixtures/intake/read-file'

const MILLIOHM = { side_a_uohm: '0.0124', side_b_uohm: '0.0121', conductor_uohm: '21.8' }
const MICROOHM = { side_a_uohm: '12.4', side_b_uohm: '12.1', conductor_uohm: '21.8' }

/** Remedies of side A's faults in a file with so many rows in milliohm and in micro-ohm. */
async function remedies(milliohm: number, microohm: number): Promise<string[]> {
  const rows = [...Array.from({ length: milliohm }, () => MILLIOHM), ...Array.from({ length: microohm }, () => MICROOHM)]
  const file = await readFile(readingCsv(rows[0]!, ...rows.slice(1)), 'readings')
  const count = (code: string, field?: string) => file.issues.filter((i) => i.code === code && (field === undefined || i.field === field)).length
  const ofMost = remediesOfMost(count, rows.length, file.mapping)
  return file.issues.filter((i) => i.field === 'side_a_uohm').map((i) => remedyOf(i, ofMost))
}

describe('a row in milliohm', () => {
  it('is corrected by itself where the others are in micro-ohm: a unit for the column would break them', async () => {
    expect(await remedies(1, 9)).toEqual(['Correct this row: write the number with its unit (0.0124 mΩ), or in the unit of the column.'])
    expect(await remedies(5, 5)).toEqual(Array(5).fill('Correct this row: write the number with its unit (0.0124 mΩ), or in the unit of the column.'))
  })

  it('is one of a column in milliohm where most rows are', async () => {
    expect((await remedies(9, 1))[0]).toBe('Most rows have it so: set the unit of its column at the import (under Intake, or by command --unit side_a_uohm=mohm). Undo this import first where rows of it were read.')
  })

  it('is named by the unit that lands in range: ohms are no milliohm', async () => {
    const ohms = { side_a_uohm: '0.0000136', side_b_uohm: '0.0000125', conductor_uohm: '0.0000215' }
    const file = await readFile(readingCsv(ohms, ohms, ohms), 'readings')
    const of = (field: string) => file.issues.find((issue) => issue.field === field)
    expect(of('side_a_uohm')).toMatchObject({ code: 'looks-like-ohm', message: expect.stringContaining('looks like ohm: 0.0000136 Ω would be 13.6 µΩ') })
    const count = (code: string, field?: string) => file.issues.filter((i) => i.code === code && (field === undefined || i.field === field)).length
    expect(remedyOf(of('side_b_uohm')!, remediesOfMost(count, 3, file.mapping))).toContain('--unit side_b_uohm=ohm')
    const none = await readFile(readingCsv({ ...MICROOHM, side_a_uohm: '0.0000000136' }), 'readings')
    expect(none.issues[0]).toMatchObject({ field: 'side_a_uohm', code: 'out-of-range' })
  })

  it('may name its unit in the cell, as the remedy says', async () => {
    const file = await readFile(readingCsv({ ...MICROOHM, side_a_uohm: '0.0124 mΩ' }), 'readings')
    expect(file.outcomes[0]).toMatchObject({ state: 'read', record: { sideAUohm: 12.4 } })
  })

  it('speaks of its own field only', () => {
    const mapping: Mapping = { kind: 'readings', columns: [] }
    const ofMost = remediesOfMost((code, field) => (code === 'looks-like-milliohm' && field === 'conductor_uohm' ? 9 : 0), 10, mapping)
    expect(ofMost.map(({ field }) => field)).toEqual(['conductor_uohm'])
    expect(remedyOf({ code: 'looks-like-milliohm', field: 'side_a_uohm', remedy: 'x' }, ofMost)).toBe('x')
  })
})
