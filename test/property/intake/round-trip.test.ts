import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { parseDecimal, plainNumber } from '@/lib/intake/cells/number'
import { ZoneClock } from '@/lib/intake/cells/zone'
import { hash128, rejectedCsv, type RowIssue } from '@/lib/intake/index'
import { SeenTable } from '@/lib/intake/normalise/seen-table'
import { csvLine } from '@/lib/intake/report/guard-cell'
import { isIssue, open, rowsOf } from '@/test/fixtures/intake/read-file'

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
      for await (const line of rejectedCsv(['k', 'first', 'second'], issues, ',')) text += line
      const read = await rowsOf(await open(text))
      expect(
        read.map((row) => (isIssue(row) ? row : row.values?.slice(0, 3)))
      ).toEqual(rows.map(([a, b]) => ['k', a, b]))
    }), { numRuns: 200 })
  })
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
