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
  const blanks = { count: 0 }
  const batches = withoutBlanks(csvRecords(skipChars(all, skip), delimiter, notes), blanks)
  const start = await readHeader(batches)
  checkColumnCount(start.header.values.length)
  const { columns, notes: headerNotes } = nameColumns(start.header.values, start.units)
  notes.push(...headerNotes)
  return { columns, rows: rowsOf(columns, start.rest, batches, notes, blanks, delimiter), notes, delimiter }
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
  /** Records that came in the same batch. */
  rest: CsvRecord[]
}

const isBlank = (record: CsvRecord): boolean => !record.unterminated && record.values.every((value) => value.trim() === '')

/** Batches without their blank lines, which count where something follows them. */
async function* withoutBlanks(batches: AsyncIterable<CsvRecord[]>, blanks: { count: number }): AsyncGenerator<CsvRecord[]> {
  let pending = 0
  for await (const batch of batches) {
    const filled = batch.filter((record) => {
      if (isBlank(record)) {
        pending++
        return false
      }
      blanks.count += pending
      pending = 0
      return true
    })
    if (filled.length > 0) yield filled
  }
}

async function readHeader(batches: AsyncGenerator<CsvRecord[]>): Promise<HeaderAndRest> {
  const [header, ...rest] = (await nextOf(batches)) ?? []
  if (!header) throw new FileRefusal('empty', 'The file holds nothing but blank lines.', 'Check the export, then drop the file again.')
  if (header.unterminated) {
    throw new FileRefusal(
      'truncated', 'The header opens a quote that is never closed, so the columns cannot be told.',
      'Export the file again; it may have been cut off.',
    )
  }
  const below = rest.length > 0 ? rest : (await nextOf(batches)) ?? []
  const units = below[0] ? unitsRow(below[0].values) : null
  return { header, units, rest: units ? below.slice(1) : below }
}

async function* rowsOf(
  columns: string[], first: CsvRecord[], batches: AsyncGenerator<CsvRecord[]>, notes: string[], blanks: { count: number },
  delimiter: string,
): AsyncGenerator<RawRow | RowIssue> {
  let row = 0
  try {
    for (let batch: CsvRecord[] | undefined = first; batch; batch = await nextOf(batches)) {
      for (const record of batch) yield toRow(record, ++row, columns, delimiter)
    }
  } finally {
    await batches.return(undefined)
  }
  if (row === 0) notes.push('The file has a header and no rows.')
  if (blanks.count > 0) notes.push(`${blanks.count} blank ${blanks.count === 1 ? 'line was' : 'lines were'} skipped.`)
}

const nextOf = async (batches: AsyncGenerator<CsvRecord[]>): Promise<CsvRecord[] | undefined> => {
  const next = await batches.next()
  return next.done ? undefined : next.value
}

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
