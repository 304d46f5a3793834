import { describe, expect, it } from 'vitest'
import { effectiveMapping, newDraft, refusalBeforeSending, surveyOf, whyNotImport, withColumn, withAlways, withSetting } from '@/components/intake/draft'
import { uploadForm } from '@/components/intake/upload'
import type { ImportPreview, MappingJson } from '@/lib/contract/intake'

const mapping: MappingJson = {
  kind: 'readings',
  columns: [
    { column: 'R side A', field: 'side_a_uohm', unit: 'mohm', basis: 'synonym' },
    { column: 'Truck', field: null, basis: 'none' },
  ],
}
const preview: ImportPreview = { format: 'CSV', notes: [], kind: 'readings', columns: [], mapping, rows: [] }
const fileOf = (bytes: number): File => {
  const file = new File([''], 'survey.csv')
  Object.defineProperty(file, 'size', { value: bytes })
  return file
}

describe('a file before it is sent', () => {
  it('is refused by a named limit over 100 MB, and not at it', () => {
    expect(refusalBeforeSending(fileOf(100_000_000))).toBeNull()
    const refused = refusalBeforeSending(fileOf(120_000_000))
    expect(refused?.code).toBe('too-large')
    expect(refused?.message).toContain('120 MB, more than the limit of 100 MB')
    expect(refused?.remedy).toContain('npm run import')
  })

  it('is refused when empty', () => {
    expect(refusalBeforeSending(fileOf(0))?.code).toBe('empty')
  })

  it('offers its name as the survey where no column names one and nobody has said', () => {
    const draft = newDraft(new File(['a'], '2026 spring.v2.csv'), 1)
    const named: MappingJson = { kind: 'readings', columns: [{ column: 'Campaign', field: 'survey' }] }
    expect(surveyOf(draft, mapping)).toBe('2026 spring.v2')
    expect(surveyOf(draft, named)).toBe('')
    expect(surveyOf({ ...draft, survey: 'Spring' }, named)).toBe('Spring')
  })
})

describe('a mapping in the hands of a person', () => {
  it('takes the unit from the header of the column, and none where the header names none', () => {
    const milli: MappingJson = {
      kind: 'readings',
      columns: [
        { column: 'R cond (mΩ)', field: null },
        { column: 'Conductor', field: null },
      ],
    }
    expect(withColumn(milli, 'R cond (mΩ)', { field: 'conductor_uohm' }).columns[0]).toMatchObject({
      field: 'conductor_uohm',
      unit: 'mohm',
    })
    expect(withColumn(milli, 'Conductor', { field: 'conductor_uohm' }).columns[1]).toEqual({
      column: 'Conductor',
      field: 'conductor_uohm',
      basis: 'user',
    })
    expect(withColumn(milli, 'R cond (mΩ)', { field: 'note' }).columns[0]).toEqual({
      column: 'R cond (mΩ)',
      field: 'note',
      basis: 'user',
    })
  })

  it('drops the unit with the field, keeps it otherwise, and says whose choice it was', () => {
    expect(withColumn(mapping, 'R side A', { field: 'conductor_uohm' }).columns[0]).toEqual({
      column: 'R side A',
      field: 'conductor_uohm',
      basis: 'user',
    })
    expect(withColumn(mapping, 'R side A', { unit: 'uohm' }).columns[0]).toEqual({
      column: 'R side A',
      field: 'side_a_uohm',
      unit: 'uohm',
      basis: 'user',
    })
    expect(withColumn(mapping, 'R side A', { unit: 'uohm' }).columns[1]).toEqual(mapping.columns[1])
  })

  it('takes a zone and lets it go again', () => {
    const zoned = withSetting(mapping, 'timeZone', 'America/Denver')
    expect(zoned.timeZone).toBe('America/Denver')
    expect('timeZone' in withSetting(zoned, 'timeZone', undefined)).toBe(false)
  })

  it('takes what holds for every row and lets it go again, leaving nothing behind', () => {
    const said = withAlways(mapping, 'kind', 'dead-end')
    expect(said.values).toEqual({ kind: 'dead-end' })
    expect(withAlways(said, 'kind', undefined)).toEqual(mapping)
  })

  it('is sent with the survey, before the file', () => {
    const draft = { ...newDraft(new File(['a'], 'survey.csv'), 1), survey: 'Spring' }
    const used = effectiveMapping(draft, preview)
    expect(used).toMatchObject({ kind: 'readings', survey: 'Spring' })
    const form = uploadForm({ file: draft.file, kind: 'readings', mapping: JSON.stringify(used), survey: 'Spring', dryRun: true })
    expect([...form.keys()]).toEqual(['kind', 'mapping', 'survey', 'dry_run', 'file'])
  })
})

describe('rows none of which would be read', () => {
  const rows = (n: number, becomes: Partial<ImportPreview['rows'][number]['becomes']> = {}): ImportPreview['rows'] => Array.from({ length: n }, (_, i) => (
    { row: i + 1, cells: {}, issues: [], becomes: { state: 'rejected', text: 'It cannot be read.', ...becomes } }))

  it('keep the file from being imported, with how many were looked at', () => {
    expect(whyNotImport(rows(1))).toBe('The only row would not be read: correct the columns or the file.')
    expect(whyNotImport(rows(7))).toBe('None of the 7 rows would be read: correct the columns or the file.')
    expect(whyNotImport(rows(50))).toBe('None of the first 50 rows would be read: correct the columns or the file. A dry run looks at every row.')
  })

  it('say that an earlier import is to be undone where it holds them in other values', () => {
    const issue = { severity: 'error' as const, row: 1, line: 2, field: null, value: '4', code: 'read-otherwise', message: 'm', remedy: 'r' }
    const held = rows(2).map((row) => ({ ...row, issues: [issue] }))
    expect(whyNotImport(held)).toBe('None of the 2 rows would be read: an earlier import holds them already, in other values. Undo that one first.')
    expect(whyNotImport([...held, ...rows(1)])).toBe('None of the 3 rows would be read: correct the columns or the file.')
  })

  it('do not where one is read, or calls the control room though it is not read', () => {
    expect(whyNotImport([...rows(3), ...rows(1, { state: 'review' })])).toBeNull()
    expect(whyNotImport([...rows(3), ...rows(1, { own_class: 'urgent' })])).toBeNull()
    expect(whyNotImport([])).toBeNull()
  })
})
