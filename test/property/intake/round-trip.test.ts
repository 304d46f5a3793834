import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { parseDecimal, plainNumber } from '@/lib/intake/cells/number'
import { ZoneClock } from '@/lib/intake/cells/zone'
import { hash128, rejectedCsv, type RowIssue } from '@/lib/intake/index'
import { SeenTable } from '@/lib/intake/normalise/seen-table'
import { csvLine } from '@/lib/intake/report/guard-cell'
import { isIssue, open, readFile, rejectedOf, rowsOf } from '@/test/fixtures/intake/read-file'

describe('CSV', () => {
  it('reads back every cell that it wrote', async () => {
    const cell = fc.string({ maxLength: 15 }).filter((text) => !/[=+\-@\t\r\0]/.test(text))
    const table = fc.integer({ min: 2, max: 6 }).chain(
      (width) => fc.array(fc.array(cell, { minLength: width, maxLength: width }), { maxLength: 8 })
    )
    await fc.assert(fc.asyncProperty(table, fc.integer({ min: 1, max: 60 }), async (rows, piece) => {
      const filled = rows.map((row) => ['x', ...row])
      const header = (filled[0] ?? ['x', 'y']).map((_, at) => `column name ${at}`)
      const text = [header, ['sure, a row', ...header.slice(1)], ...filled].map(csvLine).join('')
      const read = await rowsOf(await open(text, 'x.csv', piece))
      expect(read.slice(1).map((row) => (isIssue(row) ? row : row.values))).toEqual(filled)
    }), { numRuns: 300 })
  })

  it('of rejected rows reads back the file\'s own cells', async () => {
    const cell = fc.string({ maxLength: 12 }).filter((text) => !/[=+\-@\t\r\n\0]/.test(text))
    await fc.assert(fc.asyncProperty(fc.array(fc.tuple(cell, cell), { minLength: 1, maxLength: 6 }), async (rows) => {
      const issues: RowIssue[] = rows.map(([a, b], at) => ({
        severity: 'error', row: at + 1, field: 'a', value: a, code: 'c', message: 'm', remedy: 'r', raw: csvLine(['k', a, b]).trimEnd(),
      }))
      let text = ''
      for await (const line of rejectedCsv(['k', 'first', 'second'], issues, { delimiter: ',' })) text += line
      const read = await rowsOf(await open(text))
      expect(
        read.map((row) => (isIssue(row) ? row : row.values))
      ).toEqual(rows.map(([a, b]) => ['k', a, b]))
    }), { numRuns: 200 })
  })
})

const KNOWN = ['taken_at', 'lon', 'lat', 'kind', 'circuit', 'phase', 'side_a_uohm', 'conductor_uohm', 'ambient_c', 'findings', 'note']

describe('the rejected rows of any file', () => {
  const odd = fc.constantFrom(
    '=1+1', '\'=1+1', '\'\'=1', '+cmd', '-cmd(1)', '@SUM(A1)', '\t', '\t=1', ' =1', '-12,5', '-3e2', '12', '9.6', '0', '-4', 'resistance',
    'ultrasonic', 'A', 'Z', '2199-01-01', '', ' ', 'two\r\nlines', '"quoted"', 'a;b', 'a,b', 'a|b', '#REF!', '\u2400', '\uFFFD',
    '{"type":"Point"}', '45°', 'µ',
  )
  const cell = fc.oneof(
    { weight: 3, arbitrary: odd }, { weight: 1, arbitrary: fc.string({ maxLength: 10 }).filter((text) => !text.includes('\0')) })
  const row = fc.record({ cells: fc.array(cell, { minLength: 13, maxLength: 13 }), more: fc.integer({ min: -1, max: 2 }) })
  const table = fc.record({
    columns: fc.shuffledSubarray(KNOWN, { minLength: 3 }), rows: fc.array(row, { minLength: 1, maxLength: 12 }),
    delimiter: fc.constantFrom(',', ';', '\t', '|'), isCutOff: fc.boolean(),
  })

  it('come in again uncorrected with the same issues, row by row, and in any number of rounds', async () => {
    let rejected = 0
    await fc.assert(fc.asyncProperty(table, async ({ columns, rows, delimiter, isCutOff }) => {
      const quoted = (text: string): string => (/["\r\n,;\t|]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text)
      const lines = rows.map(({ cells, more }) => cells.slice(0, columns.length + more).map(quoted).join(delimiter))
      const text = [columns.join(delimiter), ...lines, ...(isCutOff ? [`x${delimiter}"cut`] : [])].join('\r\n')
      const file = await readFile(text, 'readings')
      let before = file
      for (let round = 0; round < 2; round++) {
        const issues = rejectedOf(before)
        rejected += before.rejected
        let csv = ''
        for await (const line of rejectedCsv(before.table.columns, issues, { delimiter: before.table.delimiter })) csv += line
        const again = await readFile(csv, 'readings', { mapping: { decimalComma: undefined, dateOrder: undefined, timeZone: undefined, ...file.mapping } })
        expect(again.table.columns).toEqual(before.table.columns)
        expect(again.rejected).toBe(before.rejected)
        expect(again.read + again.duplicate).toBe(0)
        expect(told(rejectedOf(again))).toEqual(told(issues))
        before = again
      }
    }), { numRuns: 300 })
    expect(rejected).toBeGreaterThan(1000)
  })

  /** What was wrong with each rejected row in turn; the rows themselves are counted anew. */
  function told(issues: readonly RowIssue[]): unknown[] {
    const rows = [...new Set(issues.map((issue) => issue.row))]
    const sentence = (message: string): string => message.replace(/^Row \d+(, line \d+)?/, '').replace(/opened in line \d+ closes in line \d+/, 'opened and closes')
    return issues.map(({ row: at, severity, field, value, code, message }) => (
      [rows.indexOf(at), severity, field, value, code, sentence(message)]))
  }
})

describe('numbers', () => {
  it('are read as they are printed, by point and by comma', () => {
    fc.assert(fc.property(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e12, max: 1e12 }).map((value) => value + 0), (value) => {
      const text = String(value)
      expect(parseDecimal(text, undefined)).toBe(value)
      const comma = text.replace('.', ',')
      if (comma !== text) expect(parseDecimal(comma, true)).toBe(value)
    }))
  })

  it('take the short way only where both ways agree', () => {
    fc.assert(fc.property(fc.stringMatching(/^-?[0-9.]{0,20}$/), (text) => {
      const short = plainNumber(text)
      if (!Number.isNaN(short)) expect(Number(text)).toBe(short)
    }))
  })
})

describe('wall clocks', () => {
  it.each(['America/Denver', 'Europe/London', 'Australia/Lord_Howe', 'Asia/Kathmandu', 'UTC', 'America/St_Johns', 'Africa/Casablanca'])(
    'of %s come back from UTC as they went, wherever the clock showed the hour at all', (zone) => {
      const clock = new ZoneClock(zone)
      const shown = new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short', timeStyle: 'medium' })
      fc.assert(fc.property(fc.integer({ min: Date.UTC(1975, 0), max: Date.UTC(2040, 0) }), (ms) => {
        const wallMs = Math.floor(ms / 1000) * 1000
        const { atMs, doubt } = clock.toUtc(wallMs)
        if (doubt !== 'gap') expect(shown.format(atMs).replace(' ', 'T')).toBe(new Date(wallMs).toISOString().slice(0, 19))
      }), { numRuns: 300 })
    },
  )
})

describe('the table of what was seen', () => {
  it('answers as a plain map does', () => {
    const entry = fc.tuple(fc.integer({ min: 0, max: 3000 }), fc.integer({ min: 0, max: 2 }))
    fc.assert(fc.property(fc.array(entry, { maxLength: 6000, minLength: 2000 }), (entries) => {
      const table = new SeenTable()
      const map = new Map<number, { row: number; content: number }>()
      entries.forEach(([key, content], at) => {
        const known = map.get(key)
        const expected = known ? { row: known.row, same: known.content === content } : null
        expect(table.see(hash128(`k${key}`), hash128(`c${content}`), at + 1)).toEqual(expected)
        if (!known) map.set(key, { row: at + 1, content })
      })
    }), { numRuns: 5 })
  })
})
