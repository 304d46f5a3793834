import { describe, expect, it } from 'vitest'
import { readFile, recordsOf, rejectedOf } from '@/test/fixtures/intake/read-file'

const PLACE = 'Reading,taken_at,lon,lat'
const PLACED = 'R-1,2026-05-04T09:26:00-06:00,-112.041733,47.518204'
const one = (headers: string, cells: string) => readFile(`${PLACE},${headers}\n${PLACED},${cells}\n`, 'readings')

describe('a header that names a unit its field is not measured in', () => {
  it.each([
    ['Conductor (kΩ)', 'conductor_uohm', 'kΩ', 'Write the column in µΩ and say so in its header, or set the unit of its column at the import (under Intake, or by command --unit conductor_uohm=UNIT).'],
    ['Conductor (MΩ)', 'conductor_uohm', 'MΩ', 'Write the column in µΩ and say so in its header, or set the unit of its column at the import (under Intake, or by command --unit conductor_uohm=UNIT).'],
    ['Electrode span (kg)', 'electrode_span_m', 'kg', 'Write the column in m and say so in its header, or set the unit of its column at the import (under Intake, or by command --unit electrode_span_m=UNIT).'],
  ])('%s loses its rows by name', async (header, field, unit, remedy) => {
    const file = await one(`side_a_uohm,side_b_uohm,${header}`, '9.6,10.4,0.3')
    expect(file.mapping.columns.at(-1)).toEqual({ column: header, field, basis: expect.stringMatching(/template|synonym/) })
    expect(rejectedOf(file)).toMatchObject([{
      field, value: '0.3', code: 'unknown-unit',
      message: `Row 1, line 2, ${field} (column '${header}'): '0.3' stands under a header that names ${unit}, which is no unit this column knows.`,
      remedy,
    }])
  })

  it('is no reading in micro-ohms of what was millivolts', async () => {
    expect(rejectedOf(await one('Side A (mV),Side B (mV),conductor_uohm', '9.6,10.4,21.3')).map(({ field, code }) => [field, code]))
      .toEqual([['side_a_uohm', 'unknown-unit'], ['side_b_uohm', 'unknown-unit']])
  })

  it('leaves side information out, with a warning', async () => {
    const file = await one('side_a_uohm,side_b_uohm,conductor_uohm,Wind (Beaufort)', '9.6,10.4,21.3,3')
    expect(recordsOf(file)).toMatchObject([{ sideAUohm: 9.6, windMS: null }])
    expect(file.issues.find((issue) => issue.field === 'wind_m_s')).toMatchObject({ severity: 'warning', code: 'unknown-unit' })
  })

  it('gives way to the unit of a cell', async () => {
    const file = await one('side_a_uohm,side_b_uohm,Conductor (kΩ)', '9.6,10.4,21.3 µΩ')
    expect(recordsOf(file)).toMatchObject([{ conductorUohm: 21.3 }])
  })

  it('gives way to the unit that a person set', async () => {
    const content = `${PLACE},side_a_uohm,side_b_uohm,Conductor (kΩ)\n${PLACED},9.6,10.4,0.0213\n`
    const { mapping } = await readFile(content, 'readings')
    const columns = mapping.columns.map((column) => (column.field === 'conductor_uohm' ? { ...column, unit: 'mohm', basis: 'user' as const } : column))
    expect(recordsOf(await readFile(content, 'readings', { mapping: { columns } }))[0]?.conductorUohm).toBeCloseTo(21.3, 9)
  })

  it('counts ohms as ohms', async () => {
    const { issues } = await one('side_a_uohm,side_b_uohm,Conductor (Ω)', '9.6,10.4,21.3')
    expect(issues.find(({ field }) => field === 'conductor_uohm')).toMatchObject({ severity: 'warning', code: 'looks-like-microohm' })
    expect(rejectedOf(await one('Side A (Ω),side_b_uohm,conductor_uohm', '9.6,10.4,21.3'))).toMatchObject([{ field: 'side_a_uohm', code: 'looks-like-microohm' }])
  })
})

describe('a column of which nothing names the unit', () => {
  const rows = (headers: string, ...cells: string[]) => readFile(
    `Reading,taken_at,lon,lat,side_a_uohm,side_b_uohm,conductor_uohm,${headers}\n`
    + cells.map((each, at) => `R-${at},2026-05-04T09:2${at}:00-06:00,-112.041733,47.518204,9.6,10.4,21.3,${each}\n`).join(''), 'readings',
  )
  const unitNotes = (notes: readonly string[]) => notes.filter((note) => note.startsWith('No unit'))

  it('is told once, with what was taken and for how many rows', async () => {
    const file = await rows('Electrode span,Wind', '0.3,2', '0.3,', '0.31,4')
    expect(recordsOf(file)).toMatchObject([{ electrodeSpanM: 0.3 }, { electrodeSpanM: 0.3 }, { electrodeSpanM: 0.31 }])
    expect(unitNotes(file.notes)).toEqual([
      'No unit is given for Electrode span; metres were taken (3 rows, first row 1).',
      'No unit is given for Wind speed; metres per second were taken (2 rows, first row 1).',
    ])
  })

  it('names a word in brackets that is no unit', async () => {
    expect(unitNotes((await rows('Electrode span (smoots)', '0.3')).notes)).toEqual([
      "No unit is given for Electrode span, and '(smoots)' in its header is none that is known; metres were taken (1 row, first row 1).",
    ])
  })

  it('is not where header, cells or template name it', async () => {
    expect(unitNotes((await rows('Electrode span (ft),electrode spacing note', '1,x')).notes)).toEqual([])
    expect(unitNotes((await rows('Electrode span', '12 in', '0.3 m')).notes)).toEqual([])
    expect(unitNotes((await rows('electrode_span_m,wind_m_s', '0.3,2')).notes)).toEqual([])
  })

  it('counts only cells without a unit of their own', async () => {
    expect(unitNotes((await rows('Electrode span', '12 in', '0.3')).notes)).toEqual([
      'No unit is given for Electrode span; metres were taken (1 row, first row 2).',
    ])
  })

  it('is not once a person has set it', async () => {
    const content = 'Reading,taken_at,lon,lat,side_a_uohm,side_b_uohm,conductor_uohm,Span\nR,2026-05-04T09:26:00-06:00,-112,47.5,9.6,10.4,21.3,0.3\n'
    const { mapping, notes } = await readFile(content, 'readings')
    expect(unitNotes(notes)).toHaveLength(1)
    const columns = mapping.columns.map((column) => (column.field === 'electrode_span_m' ? { ...column, basis: 'user' as const } : column))
    expect(unitNotes((await readFile(content, 'readings', { mapping: { columns } })).notes)).toEqual([])
  })
})
