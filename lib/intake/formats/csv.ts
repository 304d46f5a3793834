import { checkColumnCount } from '../guards/columns'
import { type CsvRecord, csvRecords } from '../text/csv-records'
import { decodeText } from '../text/decode'
import { guessDelimiter } from '../text/delimiter'
import { headText } from '../text/head-text'
import { type Format, FileRefusal, type RawRow, type RowIssue, type Table } from '../types'
import { nameColumns, unitsRow } from './csv-header'

/** Text parted by commas, semicolons, tabs or bars (RFC 4180 and its relatives), with a header line. */
export const csv: Format = {
  id: 'csv',
  label: 'CSV',
  extensions: ['csv', 'tsv', 'txt'],
  mediaTypes: ['text/csv', 'text/tab-separated-values', 'text/plain'],
  sniff: (head) => {
    const text = headText(head)
    return text !== null && !/^\s*[{[<]/.test(text)
  },
  open,
}

async function open(bytes: AsyncIterable<Uint8Array>): Promise<Table> {
  const { chunks, notes } = await decodeText(bytes)
  const { head, all } = await peekText(chunks)
  const { delimiter, skip, note } = guessDelimiter(head)
  if (note) notes.push(note)
  const batches = csvRecords(skipChars(all, skip), delimiter, notes)
  const start = await readHeader(batches)
  checkColumnCount(start.header.values.length)
  const { columns, notes: headerNotes } = nameColumns(start.header.values, start.units)
  notes.push(...headerNotes)
  return { columns, rows: rowsOf(columns, start.rest, batches, notes, delimiter), notes, delimiter }
}

const HEAD_CHARS = 64 * 1024

/** Text at the front to guess the delimiter by, and all of it again. */
async function peekText(chunks: AsyncIterable<string>): Promise<{ head: string; all: AsyncIterable<string> }> {
  const iterator = chunks[Symbol.asyncIterator]()
  let head = ''
  while (head.length < HEAD_CHARS) {
    const next = await iterator.next()
    if (next.done) break
    head += next.value
  }
  async function* all(): AsyncGenerator<string> {
    try {
      yield head
      for (let next = await iterator.next(); !next.done; next = await iterator.next()) yield next.value
    } finally {
      await iterator.return?.()
    }
  }
  return { head, all: all() }
}

async function* skipChars(chunks: AsyncIterable<string>, count: number): AsyncGenerator<string> {
  let left = count
  for await (const chunk of chunks) {
    yield left > 0 ? chunk.slice(left) : chunk
    left = Math.max(0, left - chunk.length)
  }
}

interface HeaderAndRest {
  header: CsvRecord
  units: string[] | null
  /** Data records that came in the same batch. */
  rest: CsvRecord[]
}

const isBlank = (record: CsvRecord): boolean => !record.unterminated && record.values.every((value) => value.trim() === '')

async function readHeader(batches: AsyncGenerator<CsvRecord[]>): Promise<HeaderAndRest> {
  const seen: CsvRecord[] = []
  for (let next = await batches.next(); !next.done; next = await batches.next()) {
    for (const record of next.value) if (seen.length > 0 || !isBlank(record)) seen.push(record)
    if (seen.filter((record) => !isBlank(record)).length >= 2) break
  }
  const header = seen.shift()
  if (!header) throw new FileRefusal('empty', 'The file holds nothing but blank lines.', 'Check the export, then drop the file again.')
  if (header.unterminated) {
    throw new FileRefusal(
      'truncated', 'The header opens a quote that is never closed, so the columns cannot be told.',
      'Export the file again; it may have been cut off.',
    )
  }
  const below = seen.findIndex((record) => !isBlank(record))
  const units = below === -1 ? null : unitsRow(seen[below]!.values)
  if (units) seen.splice(0, below + 1)
  return { header, units, rest: seen }
}

async function* rowsOf(
  columns: string[], first: CsvRecord[], batches: AsyncGenerator<CsvRecord[]>, notes: string[], delimiter: string,
): AsyncGenerator<RawRow | RowIssue> {
  let row = 0
  let blank = 0
  let pendingBlank = 0
  for (let batch: CsvRecord[] | undefined = first; batch; batch = await nextOf(batches)) {
    for (const record of batch) {
      if (isBlank(record)) {
        pendingBlank++
        continue
      }
      blank += pendingBlank
      pendingBlank = 0
      yield toRow(record, ++row, columns, delimiter)
    }
  }
  if (row === 0) notes.push('The file has a header and no rows.')
  if (blank > 0) notes.push(`${blank} blank ${blank === 1 ? 'line was' : 'lines were'} skipped.`)
}

const nextOf = async (batches: AsyncGenerator<CsvRecord[]>): Promise<CsvRecord[] | undefined> =>
  (await batches.next()).value as CsvRecord[] | undefined

function toRow(record: CsvRecord, row: number, columns: string[], delimiter: string): RawRow | RowIssue {
  const { values, raw } = record
  const refused = (code: string, message: string, remedy: string): RowIssue =>
    ({ severity: 'error', row, code, message: `Row ${row}: ${message}`, remedy, raw: withoutZeros(raw) })
  if (record.unterminated) {
    return refused(
      'unterminated-quote', 'a quote is opened and never closed before the file ends.',
      'Close the quote, or export the file again; it may have been cut off.'
    )
  }
  if (raw.includes('\0')) {
    return refused('zero-character', 'the row holds a zero character, which no table holds.', 'Export the file again as CSV UTF-8.')
  }
  if (values.length < columns.length) {
    return refused(
      'too-few-cells', `it has ${values.length} cells where the header has ${columns.length}.`,
      'Write every cell, empty ones too; a last row like this is the mark of a file that was cut off.',
    )
  }
  if (values.length > columns.length && values.slice(columns.length).some((value) => value.trim() !== '')) {
    return refused(
      'too-many-cells', `it has ${values.length} cells where the header has ${columns.length}.`,
      `Put quotes around cells that hold ${delimiter === ',' ? 'a comma, decimal commas included' : 'the delimiter'}.`,
    )
  }
  return new CsvRow(row, columns, values, raw)
}

const withoutZeros = (text: string): string => text.replaceAll('\0', '\u2400')

/** Cells by name are made only where somebody asks: readers of many rows go by position. */
class CsvRow implements RawRow {
  constructor(readonly row: number, private readonly columns: string[], readonly values: readonly string[], readonly raw: string) {}

  get cells(): Record<string, string> {
    const cells = Object.create(null) as Record<string, string>
    for (let at = 0; at < this.columns.length; at++) cells[this.columns[at]!] = this.values[at] ?? ''
    return cells
  }
}
