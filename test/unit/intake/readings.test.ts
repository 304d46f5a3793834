import { describe, expect, it } from 'vitest'
import { normaliseRow, positionSigmaM, type RowIssue } from '@/lib/intake/index'
import { context, readFile, readingCsv, recordsOf } from '@/test/fixtures/intake/read-file'

const one = async (cells: Record<string, string>, extra = {}) => {
  const file = await readFile(readingCsv(cells), 'readings', { context: extra })
  return { ...file, record: recordsOf(file)[0], issue: file.issues[0] as RowIssue | undefined }
}

describe('a sound reading', () => {
  it('becomes a record with every field, nulls where nothing is known, and its row as it stood', async () => {
    const { record, issues } = await one({ gnss_accuracy_m: '4.5', structure_back: '045', repeat_no: '2', rain_1h: 'no' })
    expect(issues).toEqual([])
    expect(record).toMatchObject({
      recordType: 'reading', rowNo: 1, readingKey: 'R-1', survey: null, kind: 'resistance', takenAt: new Date('2026-05-04T15:26:00Z'),
      lon: -112.041733, lat: 47.518204, gnssAccuracyM: 4.5, sigmaM: 4.5 / 1.515, positionOf: 'target', platform: null, structureBack: '045',
      sideAUohm: 9.6, sideBUohm: 10.4, conductorUohm: 21.3, repeatNo: 2, rain1h: false, afterRepair: false, findings: [], note: null,
      rawRow: 'R-1,2026-05-04T09:26:00-06:00,-112.041733,47.518204,resistance,9.6,10.4,21.3,4.5,045,2,no',
    })
    expect(record!.contentHash).toMatch(/^[0-9a-f]{32}$/)
  })

  it('takes its survey from the mapping where the row names none', async () => {
    const file = await readFile(readingCsv({ survey: '' }, { survey: 'Own' }), 'readings', { mapping: { survey: 'Spring' } })
    expect(recordsOf(file).map((record) => record.survey)).toEqual(['Spring', 'Own'])
  })

  it('is known by the hash of what it says where it has no id', async () => {
    const a = await one({ reading_id: '' })
    const b = await one({ reading_id: '', lon: '-112.0417330', side_a_uohm: '9.60' })
    const c = await one({ reading_id: '', side_a_uohm: '9.61' })
    expect(a.record!.readingKey).toBe(a.record!.contentHash)
    expect(b.record!.readingKey).toBe(a.record!.readingKey)
    expect(c.record!.readingKey).not.toBe(a.record!.readingKey)
  })

  it('has one content whatever columns and units its file has', async () => {
    const a = await one({ conductor_uohm: '21', side_a_uohm: '9', side_b_uohm: '10', wind_m_s: '' })
    const csv = [
      'id,Date,R side A (mΩ),R side B (mΩ),Conductor (mΩ),Lat,Long,Type,Extra',
      'R-1,2026-05-04 09:26,0.009,0.010,0.021,47.518204,-112.041733,Resistance,x',
    ].join('\n')
    const b = await readFile(csv, 'readings')
    expect(b.issues).toEqual([])
    expect(recordsOf(b)[0]).toMatchObject({ sideAUohm: 9, contentHash: a.record!.contentHash })
  })
})

describe('what cannot be measured', () => {
  it.each([
    ['side_a_uohm', '0', 'not-positive'], ['side_b_uohm', '-12', 'not-positive'], ['side_a_uohm', 'inf', 'not-finite'],
    ['side_a_uohm', '0.012', 'looks-like-milliohm'], ['conductor_uohm', 'x', 'not-a-number'], ['taken_at', '2031-01-01', 'time-in-future'],
    ['side_b_uohm', '=10+1', 'formula-cell'],
    ['splice_id', '@SUM(A1)', 'formula-cell'], ['splice_id', '#REF!', 'spreadsheet-error'], ['lat', '95', 'position-out-of-range'],
    ['findings', 'crakcs', 'unknown-word'], ['kind', 'sonar', 'unknown-word'],
  ])('%s %s is rejected as %s, and the row is kept as it stood', async (field, value, code) => {
    const { outcomes, read, rejected } = await one({ [field]: value })
    expect([read, rejected]).toEqual([0, 1])
    expect(outcomes[0]).toMatchObject({ state: 'rejected', row: 1 })
    if (outcomes[0]?.state === 'rejected') expect(outcomes[0].raw).toContain(value)
    const issue = outcomes[0]!.issues.find((each) => each.severity === 'error')!
    expect(issue.code).toBe(code)
    expect(issue.message).toContain('Row 1, ')
    expect(issue.value).toContain(value)
    expect(issue.message).toContain(`'${issue.value}'`)
    expect(issue.remedy).toMatch(/\.$/)
  })

  it.each([
    ['conductor_uohm', '0', 'not-positive'], ['conductor_uohm', '-12', 'not-positive'], ['conductor_uohm', '0.012', 'looks-like-milliohm'],
    ['conductor_uohm', '900000', 'out-of-range'], ['conductor_b_uohm', '-3', 'not-positive'],
  ])('%s %s is a named fault that leaves the sides, which are judged without it: %s', async (field, value, code) => {
    const { record, issue, rejected } = await one({ conductor_uohm: '', [field]: value })
    expect(rejected).toBe(0)
    expect(record).toMatchObject({ kind: 'resistance', conductorUohm: null, conductorBUohm: null, conductorUnusable: value })
    expect(record?.sideAUohm).toBeGreaterThan(0)
    expect(issue).toMatchObject({ severity: 'warning', field, value, code, remedy: expect.stringMatching(/\.$/) })
    expect(issue?.message).toContain('the sides are judged by the conductor on record, provisionally')
  })

  it('says of an empty conductor what follows from it, where the file has a column for one and the other end has none', async () => {
    const { record, issue, rejected } = await one({ conductor_uohm: '' })
    expect([rejected, record?.conductorUohm, record?.conductorUnusable]).toEqual([0, null, null])
    expect(issue).toEqual({
      severity: 'warning', row: 1, line: 2, field: 'conductor_uohm', value: '', code: 'no-conductor',
      message: 'Row 1, line 2, conductor_uohm: \'\' is empty: the sides are judged by another conductor reading of the visit, else by the conductor on record, and not at all where none is on record.',
      remedy: 'Fill conductor_uohm where the conductor was measured; otherwise measure it over the same electrode span at the next visit.',
    })
    expect((await one({ conductor_uohm: '', conductor_b_uohm: '21.5' })).issues).toEqual([])
    expect((await one({ conductor_uohm: '', side_a_uohm: '', side_b_uohm: '', kind: 'infrared', splice_temp_c: '41' })).issues).toEqual([])
    expect((await readFile('reading_id,side_a_uohm,kind\nR-1,9.6,resistance\n', 'readings')).issues).toEqual([])
  })

  it('counts a conductor as measured where one of its two readings can be one', async () => {
    expect((await one({ conductor_uohm: '-12', conductor_b_uohm: '21.5' })).record).toMatchObject({ conductorBUohm: 21.5, conductorUnusable: null })
  })

  it('says all that is wrong with a row at once', async () => {
    const { issues } = await one({ side_a_uohm: '0', conductor_uohm: 'x', taken_at: '2031-01-01' })
    expect(issues.map((issue) => issue.code)).toEqual(['time-in-future', 'not-positive', 'not-a-number'])
  })

  it('warns of both electrodes on the barrel, and keeps the reading', async () => {
    const { record, issue } = await one({ side_a_uohm: '3', conductor_uohm: '21.3' })
    expect(record?.sideAUohm).toBe(3)
    expect(issue).toMatchObject({
      severity: 'warning', field: 'side_a_uohm', code: 'electrodes-on-barrel', value: '3',
      message: 'Row 1, line 2, side_a_uohm: \'3\' µΩ is under 0.15 of the conductor\'s 21.3 µΩ, so both electrodes were on the barrel, or the conductor reading is wrong.',
    })
    expect((await one({ side_a_uohm: '3.2', conductor_uohm: '21.3' })).issues).toEqual([])
  })
})

describe('kinds', () => {
  it('are told from what is filled, and said once', async () => {
    const csv = readingCsv(
      { kind: '' }, { kind: '', side_a_uohm: '', side_b_uohm: '', conductor_uohm: '', splice_temp_c: '41' },
      { kind: '', side_a_uohm: '', side_b_uohm: '', conductor_uohm: '', findings: 'bow' }, { kind: '' },
    )
    const file = await readFile(csv, 'readings')
    expect(recordsOf(file).map((record) => record.kind)).toEqual(['resistance', 'infrared', 'visual', 'resistance'])
    expect(file.notes).toContain('Rows without a kind that hold a resistance were taken as resistance readings (2 rows, first row 1).')
  })

  it('are not said to be missing where the cell holds a word that is not known', async () => {
    const file = await readFile(readingCsv({ kind: 'resistance' }, { kind: 'wire gauge' }), 'readings')
    expect(file.issues.map((issue) => [issue.row, issue.field])).toEqual([[2, 'kind']])
    expect(file.notes.filter((note) => note.startsWith('Rows without a kind'))).toEqual([])
  })

  it('are an error where the row measures nothing', async () => {
    const { issue } = await one({ kind: '', side_a_uohm: '', side_b_uohm: '', conductor_uohm: '' })
    expect(issue).toMatchObject({ severity: 'error', field: 'kind', code: 'nothing-measured' })
  })

  it('warn where the measurement of the kind is missing', async () => {
    expect((await one({ side_a_uohm: '', side_b_uohm: '' })).issue).toMatchObject({ severity: 'warning', code: 'nothing-measured' })
    expect((await one({ kind: 'IR' })).issue).toMatchObject({ severity: 'warning', field: 'splice_temp_c' })
    expect((await one({ kind: 'visual' })).issue).toMatchObject({ severity: 'warning', field: 'findings' })
  })

  it('do not let none stand beside a finding', async () => {
    const { record, issue } = await one({ kind: 'visual', findings: 'none;bow' })
    expect(record?.findings).toEqual(['bow'])
    expect(issue).toMatchObject({ severity: 'warning', code: 'none-and-others' })
  })
})

describe('positions', () => {
  const bbox = [-114, 45, -108, 49] as const

  it('at (0, 0) are missing ones, and the reading stays', async () => {
    const { record, issue } = await one({ lon: '0', lat: '0.0' })
    expect(record).toMatchObject({ lon: null, lat: null, sigmaM: null })
    expect(record?.rawRow).toContain(',0,0.0,')
    expect(issue).toMatchObject({
      severity: 'warning', field: 'lon', code: 'position-zero', value: '0, 0',
      message: 'Row 1, line 2, lon: the position \'0, 0\' is what receivers write without a fix, so it counts as missing.',
    })
  })

  it('with one coordinate are none', async () => {
    expect(await one({ lat: '' })).toMatchObject({ record: { lon: null, lat: null }, issue: { code: 'position-incomplete', field: 'lat' } })
  })

  it('that are not given at all are told once for the file', async () => {
    const file = await readFile(readingCsv({ lon: '', lat: '' }, { lon: '', lat: '' }), 'readings')
    expect(file.read).toBe(2)
    expect(file.issues).toEqual([])
    expect(file.notes.join()).toContain(
      'No position is given, so these rows are placed by what they declare, or go to review (2 rows, first row 1)'
    )
  })

  it('with the latitude beyond 90 are swapped', async () => {
    const { issue, read } = await one({ lon: '47.518204', lat: '-112.041733' })
    expect(read).toBe(0)
    expect(issue).toMatchObject({ severity: 'error', field: 'lat', code: 'swapped-lon-lat', value: '47.518204, -112.041733' })
    expect(issue?.remedy).toBe('Swap longitude and latitude in this row.')
  })

  it('both in range are swapped where that brings them into the network', async () => {
    const near = [10, 45, 14, 49] as const
    expect(
      (await one({ lon: '47.5', lat: '11.2' }, { networkBbox: near })).issue
    ).toMatchObject({ severity: 'error', code: 'swapped-lon-lat' })
    expect((await one({ lon: '11.2', lat: '47.5' }, { networkBbox: near })).issues).toEqual([])
    expect((await one({ lon: '60', lat: '20' }, { networkBbox: near })).issues).toEqual([])
    expect((await one({}, { networkBbox: bbox })).issues).toEqual([])
  })

  it('in metres of a projection are refused by name', async () => {
    expect((await one({ lon: '512345.1', lat: '5261234.9' })).issue).toMatchObject({ code: 'position-out-of-range' })
  })

  it('of aircraft are the aircraft\'s unless the row says otherwise', async () => {
    expect((await one({ platform: 'drone' })).record?.positionOf).toBe('platform')
    expect((await one({ platform: 'helicopter', position_of: 'target' })).record?.positionOf).toBe('target')
    expect((await one({ platform: 'bucket' })).record?.positionOf).toBe('target')
  })
})

describe('sigma', () => {
  it('is the 68 % radius over 1.515, else the platform\'s', () => {
    expect(positionSigmaM(4.5, 'helicopter')).toBeCloseTo(2.9703, 4)
    expect(positionSigmaM(null, 'ground')).toBe(8)
    for (
      const platform of ['bucket', 'ladder', 'line_platform', 'line_robot', 'uncrewed'] as const
    ) expect(positionSigmaM(null, platform)).toBe(5)
    expect(positionSigmaM(null, 'helicopter')).toBe(15)
    expect(positionSigmaM(0, null)).toBe(8)
  })

  it('does not believe an accuracy of zero', async () => {
    const { record, notes } = await one({ gnss_accuracy_m: '0', platform: 'ladder' })
    expect(record).toMatchObject({ gnssAccuracyM: null, sigmaM: 5 })
    expect(notes.join()).toContain('An accuracy of zero was taken as not known')
  })
})

describe('ids in one file', () => {
  it('with the same values are one reading', async () => {
    const file = await readFile(readingCsv({ reading_id: 'R-9' }, { reading_id: 'R-9' }), 'readings')
    expect(file).toMatchObject({ read: 1, duplicate: 1, rejected: 0 })
    expect(file.outcomes[1]).toMatchObject({ state: 'duplicate', row: 2, firstRow: 1 })
    expect(file.issues).toMatchObject([{ severity: 'warning', row: 2, code: 'repeated-row', message: 'Row 2, line 3: the row says the same as row 1, line 2, value for value, and counts once with it.' }])
  })

  it('with other values are an error that names both rows', async () => {
    const file = await readFile(readingCsv({ reading_id: 'R-9' }, { reading_id: 'R-9', side_a_uohm: '53' }), 'readings')
    expect(file).toMatchObject({ read: 1, rejected: 1 })
    expect(file.issues[0]).toMatchObject({
      severity: 'error', row: 2, field: 'reading_id', value: 'R-9', code: 'duplicate-id-other-values',
      message: 'Row 2, line 3, reading_id: \'R-9\' stood in row 1, line 2 already, with other values.',
    })
  })

  it('are each survey\'s own', async () => {
    const file = await readFile(
      readingCsv({ reading_id: '1', survey: 'a' }, { reading_id: '1', survey: 'b', side_a_uohm: '53' }), 'readings'
    )
    expect(file).toMatchObject({ read: 2, rejected: 0 })
  })
})

describe('dates without an offset', () => {
  it('are those of the mapping\'s zone, else of the utility', async () => {
    const csv = readingCsv({ taken_at: '2026-05-04 09:26' })
    expect(recordsOf(await readFile(csv, 'readings'))[0]?.takenAt?.toISOString()).toBe('2026-05-04T15:26:00.000Z')
    const utc = await readFile(csv, 'readings', { mapping: { timeZone: 'UTC' } })
    expect(recordsOf(utc)[0]?.takenAt?.toISOString()).toBe('2026-05-04T09:26:00.000Z')
  })

  it('that may be read either way are told once', async () => {
    const file = await readFile(readingCsv({ taken_at: '03/04/2026 10:00' }, { taken_at: '03/05/2026 10:00' }), 'readings')
    expect(file.notes.join()).toContain(
      'Nothing in the file tells whether days or months come first; the month was taken to come first: check the dates (2 rows, first row 1)'
    )
  })
})

describe('a row by itself', () => {
  it('shows what it would become', async () => {
    const { table, mapping } = await readFile(readingCsv({}), 'readings')
    const raw = {
      row: 4, cells: Object.fromEntries(table.columns.map((column) => [column, column === 'side_a_uohm' ? '9.6' : ''])), raw: 'x'
    }
    expect(
      normaliseRow('readings', mapping, raw, context())
    ).toMatchObject({ state: 'read', row: 4, record: { kind: 'resistance', sideAUohm: 9.6 } })
  })
})

describe('a splice temperature below air and conductor', () => {
  const infrared = (splice: string, more: Record<string, string> = {}) =>
    one({ kind: 'infrared', side_a_uohm: '', side_b_uohm: '', conductor_uohm: '', splice_temp_c: splice, ambient_c: '28', conductor_temp_c: '31', ...more })
  const cold = async (...of: Parameters<typeof infrared>) => (await infrared(...of)).issues.filter(({ code }) => code === 'colder-than-sky')

  it('is read and warned of where not even bright metal under a clear sky looks so cold', async () => {
    const { record, issues } = await infrared('-29')
    expect(record).toMatchObject({ spliceTempC: -29 })
    expect(issues).toMatchObject([{ severity: 'warning', field: 'splice_temp_c', code: 'colder-than-sky' }])
    expect(issues[0]?.message).toContain('the splice reads {57 K} below the air: colder than even bright metal that reflects a clear sky can look.')
    expect(await cold('-29', { ambient_c: '' })).toMatchObject([{ message: expect.stringContaining('{60 K} below the conductor') }])
  })

  it('is not where the sky explains it, or nothing says how warm it was', async () => {
    // 0.2 of 301.15 K and 0.8 of a sky at 251.15 K radiate as 263.6 K, -9.55 °C: Stefan-Boltzmann by hand.
    expect(await cold('-9.5')).toHaveLength(0)
    expect(await cold('-9.9')).toHaveLength(1)
    // The camera was set to a colder sky.
    expect(await cold('-20', { reflected_c: '-45' })).toHaveLength(0)
    expect(await cold('-29', { ambient_c: '', conductor_temp_c: '' })).toHaveLength(0)
    expect(await cold('-40', { ambient_c: '-38', conductor_temp_c: '-37' })).toHaveLength(0)
  })
})

describe('rows of the same second on the same splice', () => {
  const row = (b: string, more: Record<string, string> = {}): Record<string, string> => ({
    reading_id: '', lon: '', lat: '', taken_at: '2026-05-05 09:00', circuit: '7101', splice_id: 'SLV-105', side_a_uohm: '12', side_b_uohm: b, conductor_uohm: '12', instrument: '', repeat_no: '', ...more,
  })
  it('are told to contradict each other where their values differ, and count once where they do not', async () => {
    const file = await readFile(readingCsv(row('13'), row('44'), row('13')), 'readings')
    expect(file.outcomes.map(({ state }) => state)).toEqual(['read', 'read', 'duplicate'])
    const found = file.issues.filter(({ code }) => code === 'contradicts-row')
    expect(found.map(({ row: at, severity, message }) => [at, severity, message])).toEqual([
      [2, 'warning', 'Row 2, line 3: the row and row 1, line 2 name the same splice, SLV-105, at the same second, with other values: they contradict each other.'],
    ])
  })

  it('are repeats where a repeat number or an instrument tells them apart, and nothing is said of a day without a time', async () => {
    for (const other of [{ repeat_no: '2' }, { instrument: 'RM-8' }] as Record<string, string>[]) {
      const file = await readFile(readingCsv(row('13'), row('44', other)), 'readings')
      expect(file.issues.filter(({ code }) => code === 'contradicts-row')).toEqual([])
    }
    const day = await readFile(readingCsv(row('13', { taken_at: '2026-05-05' }), row('44', { taken_at: '2026-05-05' })), 'readings')
    expect(day.issues.filter(({ code }) => code === 'contradicts-row')).toEqual([])
  })
})
