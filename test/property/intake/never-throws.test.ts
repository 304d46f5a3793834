import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  compileMapping, FileRefusal, guessMapping, IMPORT_KINDS, type ImportKind, KINDS, type RawRow, type RowOutcome,
} from '@/lib/intake/index'
import { context, isIssue, open, rowsOf } from '@/test/fixtures/intake/read-file'

/** Cells that have hurt before, and anything else. */
const cell = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 30 }),
  fc.constantFrom(
    '', '0', '-0', '1e999', 'NaN', '=1+1', '@x', '#REF!', '\'=1', '3-Dec', '12+34.5', '1,234', '12,5', '03/04/2026', '2026-05-04T09:26:00Z',
    '47°31\'N',
    '\u0000', '\uFFFD', '\ud800', '"', ';', '; ;', 'none;bow', '9.6 mΩ', '1/0', '100 %', '__proto__', '2026-02-30', '-', '   ', '\u00a0',
    '99999999999999999999',
  ),
  fc.double().map(String),
  fc.date({ noInvalidDate: true }).map((date) => date.toISOString()),
)

const fieldNames = (kind: ImportKind): string[] => KINDS[kind].fields.map((field) => field.name)

/** What every outcome owes: a row that is read has no error, a row that is rejected has one, and each issue says what and what to do. */
function checkOutcome(outcome: RowOutcome): void {
  const errors = outcome.issues.filter((issue) => issue.severity === 'error')
  expect(errors.length > 0).toBe(outcome.state === 'rejected')
  for (const issue of outcome.issues) {
    expect(issue.row).toBe(outcome.row)
    expect(issue.code).toMatch(/^[a-z]+(-[a-z]+)*$/)
    expect(issue.message).toContain(`${outcome.row}`)
    expect(issue.remedy).toMatch(/\.$/)
  }
}

describe('bytes of any kind', () => {
  const bytes = fc.oneof(
    fc.uint8Array({ maxLength: 2000 }),
    fc.string({ unit: 'binary', maxLength: 500 }).map((text) => new TextEncoder().encode(text)),
    fc.array(
      fc.constantFrom('a', '1', ',', ';', '\t', '"', '\n', '\r', '\r\n', ' ', 'ä', '{', '}', '[', ']', ':', '\\', '"features"', '\u0000'),
      { maxLength: 300 }
    )
      .map((parts) => new TextEncoder().encode(parts.join(''))),
    fc.array(
      fc.constantFrom('"', ',', '\n', 'a', '\r\n'), { maxLength: 400 }
    ).map((parts) => new TextEncoder().encode(`a,b\n${parts.join('')}`)),
    fc.json({ maxDepth: 6 }).map((text) => new TextEncoder().encode(`{"type":"FeatureCollection","features":[${text},${text}]}`)),
  )

  it('give rows or one named refusal, and every row ends as read, repeated or rejected', async () => {
    await fc.assert(fc.asyncProperty(bytes, fc.integer({ min: 1, max: 200 }), async (content, piece) => {
      try {
        const table = await open(content, 'x', piece)
        const rows = await rowsOf(table)
        expect(rows.map((row) => row.row)).toEqual(rows.map((_, at) => at + 1))
        const mapping = guessMapping(table.columns, rows.filter((row): row is RawRow => !isIssue(row)).slice(0, 50))
        const normaliser = compileMapping(mapping, table.columns, context())
        for (const row of rows) checkOutcome(normaliser.row(row))
        expect(normaliser.notes().every(({ message, remedy }) => /[^.]\.$/.test(message) && /[^.]\.$/.test(remedy))).toBe(true)
      } catch (error) {
        if (!(error instanceof FileRefusal)) throw error
        expect([error.code, error.message, error.remedy].every((text) => text.length > 3)).toBe(true)
      }
    }), { numRuns: 600 })
  })

  it('are read the same in pieces of any size', async () => {
    const outcome = async (content: Uint8Array, piece: number): Promise<unknown> => {
      try {
        const table = await open(content, 'x', piece)
        return { rows: (await rowsOf(table)).map((row) => [row.row, row.raw]), columns: table.columns }
      } catch (error) {
        return error instanceof FileRefusal ? error.code : error
      }
    }
    await fc.assert(fc.asyncProperty(bytes, fc.integer({ min: 1, max: 50 }), async (content, piece) => {
      expect(await outcome(content, piece)).toEqual(await outcome(content, 1e6))
    }), { numRuns: 400 })
  })
})

describe('cells of any kind', () => {
  it.each(IMPORT_KINDS)('make records or named issues of %s', (kind) => {
    const columns = fieldNames(kind)
    const normalised = fc.array(fc.array(cell, { minLength: columns.length, maxLength: columns.length }), { minLength: 1, maxLength: 4 })
    fc.assert(fc.property(normalised, fc.constantFrom(undefined, true, false), (rows, decimalComma) => {
      const mapping = { ...guessMapping(columns, [], kind), ...(decimalComma !== undefined && { decimalComma }) }
      const normaliser = compileMapping(mapping, columns, context({ networkBbox: [-114, 45, -108, 49] }))
      const outcomes = rows.map((values, at) => normaliser.row({
        row: at + 1, cells: Object.fromEntries(columns.map((column, i) => [column, values[i]!])), values, raw: values.join(','),
      }))
      outcomes.forEach(checkOutcome)
      const count = (state: string): number => outcomes.filter((outcome) => outcome.state === state).length
      expect(count('read') + count('duplicate') + count('rejected')).toBe(rows.length)
    }), { numRuns: 300 })
  })

  it('never leave a number that is not finite, or out of its range, on a reading', () => {
    const columns = fieldNames('readings')
    const numbers = KINDS.readings.fields.filter((field) => field.type === 'number' || field.type === 'integer')
    const mapping = guessMapping(columns, [], 'readings')
    fc.assert(fc.property(fc.array(cell, { minLength: columns.length, maxLength: columns.length }), (values) => {
      const outcome = compileMapping(mapping, columns, context()).row({ row: 1, cells: {}, values, raw: '' })
      if (outcome.state !== 'read' || outcome.record.recordType !== 'reading') return
      const record = outcome.record as unknown as Record<string, unknown>
      for (const { key, min = -Infinity, max = Infinity } of numbers) {
        const value = record[key]
        expect(value === null || (typeof value === 'number' && value >= min && value <= max), key).toBe(true)
      }
      for (const [key, limit] of [['lon', 180], ['lat', 90]] as const) {
        const value = record[key]
        expect(value === null || (typeof value === 'number' && Math.abs(value) <= limit), key).toBe(true)
      }
    }), { numRuns: 500 })
  })
})

describe('headers of any kind', () => {
  it('are mapped to fields of one kind, each column once, each field once but moments', () => {
    const header = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 25 }),
      fc.constantFrom(...IMPORT_KINDS.flatMap((kind) => KINDS[kind].fields.flatMap((field) => [field.name, ...field.synonyms]))),
      fc.constantFrom('R side A (µΩ)', '(', '[', ', ', '_', '__proto__', 'constructor', 'x'.repeat(300)),
    )
    fc.assert(fc.property(fc.uniqueArray(header, { maxLength: 40 }), fc.constantFrom(undefined, ...IMPORT_KINDS), (columns, kind) => {
      const mapping = guessMapping(columns, [], kind)
      expect(mapping.columns.map((column) => column.column)).toEqual(columns)
      const fields = mapping.columns.flatMap((column) => (column.field === null ? [] : [column.field]))
      for (const field of fields) expect(fieldNames(mapping.kind)).toContain(field)
      const once = fields.filter((field) => field !== 'taken_at')
      expect(new Set(once).size).toBe(once.length)
    }), { numRuns: 300 })
  })
})
