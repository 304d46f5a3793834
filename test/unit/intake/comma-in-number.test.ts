import { describe, expect, it } from 'vitest'
import { readFile, recordsOf, rejectedOf } from '@/test/fixtures/intake/read-file'

const sides = (...cells: string[]) => readFile(
  'reading_id;taken_at;lon;lat;side_a_uohm;side_b_uohm;conductor_uohm\n'
  + cells.map((cell, at) => `R-${at};2026-05-04T09:2${at}:00-06:00;-112.041733;47.518204;${cell};10;21\n`).join(''), 'readings',
)

describe('a comma in a number of a column with decimal points', () => {
  it('is refused by name where it can be no mark of thousands', async () => {
    const file = await sides('9.6', '9.7', '9,6')
    expect(recordsOf(file)).toMatchObject([{ sideAUohm: 9.6 }, { sideAUohm: 9.7 }])
    expect(rejectedOf(file)).toMatchObject([{
      row: 3, field: 'side_a_uohm', value: '9,6', code: 'ambiguous-number',
      message: 'Row 3, line 4, side_a_uohm: \'9,6\' has a comma where the other numbers have a decimal point: 9.6 or 96.',
    }])
  })

  it('is refused before the first point as after it', async () => {
    expect(rejectedOf(await sides('9,6', '9.6', '9.7')).map(({ row, code }) => [row, code])).toEqual([[1, 'ambiguous-number']])
  })

  it('is read as thousands with a warning on its row', async () => {
    const file = await sides('9.6', '10,123')
    expect(recordsOf(file)).toMatchObject([{ sideAUohm: 9.6 }, { sideAUohm: 10_123 }])
    expect(file.issues.filter(({ code }) => code === 'comma-in-number')).toMatchObject([{
      severity: 'warning', row: 2, field: 'side_a_uohm', message: 'Row 2, line 3, side_a_uohm: \'10,123\' was read as 10123, its comma as a mark of thousands.',
    }])
  })
})

describe('a comma in a number of a column with decimal commas', () => {
  it('is the decimal sign, whatever the receiver writes in its own columns', async () => {
    const file = await sides('9,6', '9,7')
    expect(recordsOf(file)).toMatchObject([{ sideAUohm: 9.6, lon: -112.041733 }, { sideAUohm: 9.7 }])
    expect(file.issues).toEqual([])
  })
})
