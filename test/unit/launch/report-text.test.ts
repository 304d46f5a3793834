import { describe, expect, it } from 'vitest'
import type { ImportReport } from '@/lib/contract/contract'
import type { UrgentReading } from '@/lib/contract/urgent'
import { reportText } from '@/lib/launch/report-text'

const report = (rest: Partial<ImportReport> = {}): ImportReport => ({
  import_id: 7, kind: 'readings', rows: 10, read: 9, rejected: 1, already_held: 0, placed: 8, review: 1, new_splices: 0,
  urgent: [], notes: [], ignored_columns: [], issues: [], issue_count: 0, ...rest,
})

const urgent: UrgentReading = {
  notice_id: 1, basis: 'reading', withdrawn: null,
  reading_id: 1, reading_key: 'R-1', survey: 'Spring', class: 'critical', ratio: 4.4167, taken_at: null, placement_state: 'placed',
  splice_id: 3, splice: 'S-3', position_text: 'STR 45-46 + 12 m, phase A', lon: 0, lat: 0,
  circuits: [{ circuit_id: 1, circuit: 'C-1', line_name: null, probability: 0.97 }],
  raised_at: '2026-01-01T00:00:00Z', acknowledged_at: null, acknowledged_by: null,
}

describe('the report of an import', () => {
  it('opens with what is urgent and says to call the control room', () => {
    const [first, second] = reportText('a.csv', report({ urgent: [urgent] })).split('\n')
    expect(first).toMatch(/^CALL THE CONTROL ROOM NOW: 1 reading is urgent or critical/)
    expect(second).toContain('critical, ratio 4.42: reading R-1 of Spring, C-1 STR 45-46 + 12 m, phase A')
  })

  it('says what an earlier import announced and nobody noted a call for', () => {
    const fresh = { ...urgent, notice_id: 2 }
    expect(reportText('a.csv', report({ urgent: [urgent], met_notices: [1] })).split('\n')[0]).toMatch(/^CALL THE CONTROL ROOM NOW: .* Announced with an earlier import, and nobody noted a call\.$/)
    expect(reportText('a.csv', report({ urgent: [urgent, fresh], met_notices: [1] })).split('\n')[0]).toMatch(/ 1 of them announced with an earlier import, and nobody noted a call\.$/)
  })

  it('says where the kind was guessed, and how to say otherwise', () => {
    expect(reportText('a.csv', report(), { guessed: true })).toContain('  Kind guessed from its columns; --kind says otherwise.')
    expect(reportText('a.csv', report())).not.toContain('guessed')
  })

  it('names the rows that wait for review, why, and where each may belong', () => {
    const waiting = [
      { row: 3, line: 4, reason: 'L1 and L2 share their structures.', candidates: [{ circuit: 'L1', position_text: 'STR 2-3 + 150 m', probability: 0.55 }, { circuit: 'L2', position_text: 'STR 2-3 + 150 m', probability: 0.45 }] },
      { row: 9, line: null, reason: 'No line lies within 30 m of the position.', candidates: [] },
    ]
    expect(reportText('a.csv', report({ review: 2, waiting }))).toContain([
      '  For review:', '    Row 3, line 4: L1 and L2 share their structures. It may be on L1 STR 2-3 + 150 m (55%) or L2 STR 2-3 + 150 m (45%).',
      '    Row 9: No line lies within 30 m of the position.', '    They are settled at /intake/review of the server.',
    ].join('\n'))
    expect(reportText('a.csv', report({ review: 1_002, waiting }))).toContain(
      '    … and 1,000 more: all that wait are at /intake/review, all readings of this import at /api/v1/readings?import=7 of the server.')
    expect(reportText('a.csv', report({ review: 3, waiting }), { dryRun: true })).toContain('  For review, the first 2:\n')
    expect(reportText('a.csv', report({ review: 3, waiting }), { dryRun: true })).not.toContain('/intake/review')
    expect(reportText('a.csv', report())).not.toContain('For review')
  })

  it('writes every count in one way', () => {
    const text = reportText('a.csv', report({ rows: 60_000, read: 49_993, rejected: 10_007, placed: 49_000, review: 993, issue_count: 10_007 }))
    expect(text).toContain('a.csv: 60,000 rows of readings, 49,993 read, 10,007 rejected.\n  49,000 placed, 993 for review.')
    expect(text).toContain('… and 10,007 more.')
    expect(text).toContain('Its 10,007 rejected rows are at ')
    expect(text).not.toMatch(/\d{5}/)
  })

  it('says which classes on show it changes', () => {
    const changed = { total: 5, changes: [{ from: 'unknown' as const, to: 'critical' as const, count: 1 }, { from: 'unknown' as const, to: 'sound' as const, count: 4 }], splices: [] }
    expect(reportText('a.csv', report({ class_changes: changed }))).toContain('  Classes on show: 1 from unknown to critical, 4 from unknown to sound.')
    expect(reportText('a.csv', report({ class_changes: { total: 0, changes: [], splices: [] } }))).not.toContain('Classes on show')
  })

  it('says beside it why a ratio is provisional', () => {
    const [, , third] = reportText('a.csv', report({ urgent: [{ ...urgent, provisional: { conductor: 'Drake', conductor_uohm: 80, expected_uohm: 21.9 } }] })).split('\n')
    expect(third).toMatch(/^ {4}Provisional: the conductor reads 80\.0 µΩ, 3\.65 times the 21\.9 µΩ of Drake/)
  })

  it('names the candidate circuits of an urgent reading that is not placed', () => {
    const doubtful: UrgentReading = {
      ...urgent, placement_state: 'review', position_text: null,
      circuits: [...urgent.circuits, { circuit_id: 2, circuit: 'C-2', line_name: null, probability: 0.03 }],
    }
    expect(reportText('a.csv', report({ urgent: [doubtful] }))).toContain('not placed yet; it may be on C-1 (97%) or C-2 (3%)')
    const nearly = { ...doubtful, circuits: doubtful.circuits.map((c, i) => ({ ...c, probability: i === 0 ? 0.995 : 0.005 })) }
    expect(reportText('a.csv', report({ urgent: [nearly] }))).not.toMatch(/100 ?%|[( ]0 ?%/)
    expect(reportText('a.csv', report({ urgent: [{ ...doubtful, circuits: [] }] }))).toContain('not placed yet; it names no circuit; nothing lies in reach of its position')
  })

  it('says of the same file again what was announced and told, and calls nobody anew', () => {
    const told = { ...urgent, notice_id: 2, reading_key: 'R-2', acknowledged_at: '2026-05-05T01:00:00Z', acknowledged_by: 'operator' }
    const text = reportText('a.csv', report({ urgent: [urgent, told] }), { again: true })
    expect(text).not.toContain('CALL THE CONTROL ROOM NOW')
    expect(text).toMatch(/^ALREADY ANNOUNCED, NOT YET TOLD: call the control room now where nobody has\. 1 reading is urgent or critical by its own numbers\./)
    expect(text).toContain('the control room was told of it:\n  critical, ratio 4.42: reading R-2 of Spring, C-1 STR 45-46 + 12 m, phase A; told 5 May 2026 01:00 UTC, noted by operator')
  })

  it('marks a ratio that stands against the table', () => {
    const text = reportText('a.csv', report({ urgent: [{ ...urgent, by_table: { conductor: 'Drake', uohm: 22.29 } }] }))
    expect(text).toContain("critical, ratio 4.42 by the table's conductor, not measured: reading R-1")
    expect(text).toContain("\n    By the table's conductor, not measured: 22.3 µΩ of Drake")
  })

  it('counts rows and names issues with their remedy', () => {
    const issue = {
      severity: 'error' as const, row: 4, line: null, field: 'conductor_uohm', value: '-3', code: 'x',
      message: 'It is negative.', remedy: 'Measure again.',
    }
    const text = reportText('a.csv', report({ issues: [issue], issue_count: 30 }))
    expect(text).toContain('a.csv: 10 rows of readings, 9 read, 1 rejected.\n  8 placed, 1 for review.')
    expect(text).toContain('rejected: Row 4, conductor_uohm: It is negative. Measure again.')
    expect(reportText('a.csv', report({ issues: [{ ...issue, line: 7 }] }))).toContain('rejected: Row 4, line 7, conductor_uohm: It is')
    const told = reportText('a.csv', report({ issues: [{ ...issue, message: 'Row 4, conductor_uohm: negative.' }] }))
    expect(told).toContain('rejected: Row 4, conductor_uohm: negative. Measure again.')
    expect(text).toContain('and 29 more')
  })

  it('lets a fault that every row has hide no other', () => {
    const like = (row: number, code: string) => ({ severity: 'warning' as const, row, line: null, field: 'circuit', value: null, code, message: `${code}.`, remedy: 'Look.' })
    const issues = [...Array.from({ length: 24 }, (_, i) => like(i + 1, 'no structure')), like(3, 'drawn in mid-span')]
    const text = reportText('a.csv', report({ issues, issue_count: 25 }))
    expect(text.match(/no structure/g)).toHaveLength(5)
    expect(text).toContain('… and 19 more rows like it.')
    expect(text).toContain('drawn in mid-span')
  })

  it('names rejected rows in the order of the file, whatever is wrong with each', () => {
    const of = (row: number, code: string, severity: 'error' | 'warning' = 'error') => (
      { severity, row, line: row + 1, field: 'side_a_uohm', value: '', code, message: `wrong by ${code}.`, remedy: 'Correct it.' })
    const issues = [of(2, 'a'), of(9, 'a'), of(1, 'c', 'warning'), of(4, 'b'), ...[10, 11, 12, 13, 14].map((row) => of(row, 'a'))]
    const text = reportText('a.csv', report({ issues, issue_count: issues.length }))
    expect([...text.matchAll(/(rejected|warning): Row (\d+)/g)].map(([, , row]) => Number(row))).toEqual([2, 4, 9, 10, 11, 12, 1])
    expect(text).toMatch(/Row 12.*\n {4}… and 2 more rows like it\.\n {2}warning: Row 1,/)
  })

  it('says in one line what was taken for granted of a file without a fault, and in full where there is one', () => {
    const assumed = (words: string, remedy: string) => ({ severity: 'warning' as const, row: 0, line: null, field: null, value: null, code: 'assumed', message: `File: ${words}`, remedy })
    const issues = [
      assumed('Times were read as UTC (2 rows, first row 1).', 'Nothing needs to be done where that is right; otherwise undo this import.'),
      assumed('No accuracy is given (2 rows, first row 1).', 'Nothing needs to be done where that is right; otherwise give one.'),
      assumed('No column gives the time.', 'Undo this import, and map it.'),
    ]
    const text = reportText('a.csv', report({ rejected: 0, issues, issue_count: 3 }))
    expect(text).toContain('  Taken for granted; the report says what to do where it is wrong: Times were read as UTC (2 rows, first row 1); No accuracy is given (2 rows, first row 1).\n')
    expect(text).not.toContain('Nothing needs to be done')
    expect(text).toContain('warning: File: No column gives the time. Undo this import, and map it.')
    expect(reportText('a.csv', report({ issues, issue_count: 3 }))).toContain('Nothing needs to be done where that is right')
  })

  it('sends nobody to correct rows or undo anything after a dry run, and says what to undo before another mapping otherwise', () => {
    const ignored = { ignored_columns: [{ column: 'Kond wert', samples: ['21.8'] }] }
    const dry = reportText('a.csv', report(ignored), { dryRun: true })
    expect(dry).not.toContain('Correct it there')
    expect(dry).toContain('  What matters is mapped by --map')
    const kept = reportText('a.csv', report(ignored))
    expect(kept).toContain('Correct it there and import that file.')
    expect(kept).toContain('  Undo this import first (--undo 7); then what matters is mapped by --map FIELD=COLUMN')
  })

  it('says File of what concerns all of it', () => {
    const note = { severity: 'warning' as const, row: 0, line: null, field: null, value: null, code: 'assumed', message: 'A date was taken.', remedy: 'x.' }
    expect(reportText('a.csv', report({ issues: [note], issue_count: 1 }))).toContain('warning: File: A date was taken. x.')
  })

  it('lists what was not understood with samples, and how the bytes were read', () => {
    const text = reportText('a.csv', report({
      notes: ['Cells are parted by semicolons.'], ignored_columns: [{ column: 'Weather', samples: ['fair', 'rain'] }, { column: 'x', samples: [] }],
    }))
    expect(text).toContain('  Cells are parted by semicolons.')
    expect(text).toContain('2 columns were not understood and not read:\n    Weather: fair, rain\n    x: empty')
    expect(text).toContain('--describe readings')
  })

  it('says where the report and the rejected rows are', () => {
    expect(reportText('a.csv', report())).toContain('Import 7: its report is at /intake/7')
    expect(reportText('a.csv', report())).toContain('1 rejected row is at /api/v1/imports/7/rejected.csv')
    expect(reportText('a.csv', report({ rejected: 2 }), { rejectedFile: 'a.rejected.csv' })).toContain('2 rejected rows are in a.rejected.csv. Correct them there')
    expect(reportText('a.csv', report({ rejected: 0 }))).not.toContain('rejected.csv')
  })

  it('tells what was seen from what was measured', () => {
    expect(reportText('a.csv', report({ urgent: [{ ...urgent, ratio: null }] }))).toContain('critical, by sight: reading R-1')
  })

  it('says when the file was there before', () => {
    expect(reportText('a.csv', report(), { again: true })).toContain('imported before, as import 7: nothing new was stored')
  })

  it('says when it was a dry run', () => {
    const dry = reportText('a.csv', report(), { dryRun: true })
    expect(dry).toContain('nothing was stored')
    expect(dry).toContain('  Dry run 7: its report is at /intake/7')
    expect(dry).toContain('the import itself gets a number of its own')
    expect(dry).not.toContain('Import 7')
    expect(reportText('a.csv', report())).not.toContain('nothing was stored')
  })
})
