import { describe, expect, it } from 'vitest'
import { fileSize, many, stateWords, undoneWords, undoWords } from '@/components/intake/words'
import { addSample, progressOf, ratePerS, timeLeft, type Sample } from '@/components/intake/progress'
import { groupIssues } from '@/components/intake/issue-groups'
import type { ImportReport } from '@/lib/contract/contract'

const report = (over: Partial<ImportReport> = {}): ImportReport => ({
  import_id: 1,
  kind: 'readings',
  notes: [],
  ignored_columns: [],
  rows: 10,
  read: 9,
  rejected: 1,
  already_held: 0,
  placed: 8,
  review: 1,
  new_splices: 0,
  urgent: [],
  issues: [],
  issue_count: 0,
  ...over,
})
const issue = (severity: 'error' | 'warning', code: string, row: number, remedy = 'Correct it.') => ({
  severity,
  code,
  row,
  line: null,
  field: null,
  value: null,
  message: `Row ${row}.`,
  remedy,
})

describe('the words of an import', () => {
  it('tell one row from many', () => {
    expect(many(1, 'row')).toBe('1 row')
    expect(many(1204, 'row')).toBe('1,204 rows')
  })

  it('never take a dry run for an import', () => {
    expect(stateWords({ state: 'done', phase: null, dry_run: true })).toBe('Dry run, nothing kept')
    expect(stateWords({ state: 'done', phase: null, dry_run: false })).toBe('Imported')
    expect(stateWords({ state: 'cancelled', phase: null, dry_run: false })).toBe('Cancelled, nothing kept')
    expect(stateWords({ state: 'running', phase: 'placing', dry_run: false })).toBe('Placing on the lines')
  })

  it('count sizes as the limit is counted', () => {
    expect(fileSize(100_000_000)).toBe('100 MB')
    expect(fileSize(4_240_000)).toBe('4.2 MB')
    expect(fileSize(999)).toBe('999 B')
  })

  it('say before an undo what goes, what stays and that no urgent class falls', () => {
    const said = undoWords(report({ already_held: 2, new_splices: 3 })).join(' ')
    expect(said).toContain('Withdraws 7 readings')
    expect(said).toContain('3 splices found by it go, except those another import or a person has used since')
    expect(said).toContain('does not fall from urgent or critical')
    expect(said).toContain('2 rows were here before this import and stay')
  })
})

describe('the words after an undo', () => {
  const undone = { import_id: 1, readings_withdrawn: 7, splices_removed: 1, removed_urgent: 0, removed_critical: 0, held: [] }

  it('count what went', () => {
    expect(undoneWords(undone)).toBe('7 readings withdrawn, 1 splice removed.')
    expect(undoneWords({ ...undone, readings_withdrawn: 0, splices_removed: 0 })).toBe('What it added is gone.')
  })

  it('name what stays urgent or critical all the same', () => {
    expect(undoneWords({ ...undone, held: [{ splice_id: 4, class: 'urgent', measured_class: 'sound' }] })).toContain(
      '1 splice stays urgent or critical, held by a reading that was withdrawn: an undo clears no class. A named engineer does, on the sheet and with a reason',
    )
  })
})

describe('progress', () => {
  it('counts splices while they are assessed, rows before', () => {
    const at = { rows_done: 2000, rows_total: 2000, splices_done: 40, splices_total: 300 }
    expect(progressOf({ ...at, phase: 'assessing' })).toEqual({ done: 40, total: 300, of: 'splices' })
    expect(progressOf({ ...at, phase: 'placing' })).toEqual({ done: 2000, total: 2000, of: 'rows' })
  })

  it('gives the rate of the last 20 seconds only', () => {
    const samples = [0, 5000, 30_000, 35_000].reduce<Sample[]>(
      (all, atMs) => addSample(all, { atMs, done: atMs < 10_000 ? atMs : 10_000 + atMs / 10 }),
      [],
    )
    expect(samples.map((s) => s.atMs)).toEqual([30_000, 35_000])
    expect(ratePerS(samples)).toBe(100)
  })

  it('gives no rate before it can be known, and none while nothing moves', () => {
    expect(ratePerS([{ atMs: 0, done: 5 }])).toBeNull()
    expect(
      ratePerS([
        { atMs: 0, done: 5 },
        { atMs: 4000, done: 5 },
      ]),
    ).toBeNull()
  })

  it('says what is left in the unit that fits', () => {
    expect(timeLeft(0, 4000, 100)).toBe('about 40 s left')
    expect(timeLeft(0, 60_000, 100)).toBe('about 10 min left')
    expect(timeLeft(0, null, 100)).toBeNull()
    expect(timeLeft(10, 10, 100)).toBeNull()
  })
})

describe('issues by kind of fault', () => {
  it('come errors first, then the most frequent, with the remedy once where all rows share it', () => {
    const groups = groupIssues([
      issue('warning', 'date-like', 1),
      issue('warning', 'date-like', 2),
      issue('warning', 'late', 3),
      issue('error', 'zero', 4),
    ])
    expect(groups.map((g) => [g.code, g.rows.length, g.remedy])).toEqual([
      ['zero', 1, 'Correct it.'],
      ['date-like', 2, 'Correct it.'],
      ['late', 1, 'Correct it.'],
    ])
  })

  it('are kept apart by field, and by sentence where they concern the whole file', () => {
    const file = (message: string) => ({ ...issue('warning', 'assumed', 0), message })
    const groups = groupIssues([
      file('A date without a time was taken as midnight.'), file('No accuracy is given.'), file('No accuracy is given.'),
      { ...issue('warning', 'out-of-range', 3), field: 'wind_m_s' }, { ...issue('warning', 'out-of-range', 4), field: 'ambient_c' },
    ])
    expect(groups.map((g) => [g.code, g.rows.length, g.rows[0]?.message ?? ''])).toEqual([
      ['assumed', 2, 'No accuracy is given.'], ['assumed', 1, 'A date without a time was taken as midnight.'],
      ['out-of-range', 1, expect.any(String)], ['out-of-range', 1, expect.any(String)],
    ])
    expect(new Set(groups.map((g) => g.key)).size).toBe(4)
  })

  it('are kept apart by class where rows cannot wait, so that none is called what another one is', () => {
    const alarm = (row: number, value: string) => ({ ...issue('error', 'rejected-but-urgent', row), value, message: `Row ${row}: ${value} by its own numbers.` })
    const groups = groupIssues([issue('error', 'zero', 1), alarm(1, 'urgent'), alarm(2, 'critical'), alarm(3, 'urgent')])
    expect(groups.map((g) => [g.rows[0]?.message, g.rows.length])).toEqual([
      ['Row 2: critical by its own numbers.', 1], ['Row 1: urgent by its own numbers.', 2], ['Row 1.', 1],
    ])
  })

  it('keep remedies by row where they differ', () => {
    expect(groupIssues([issue('error', 'zero', 1), issue('error', 'zero', 2, 'Read it again.')])[0]?.remedy).toBeNull()
  })
})
