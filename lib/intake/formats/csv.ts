import { formatNumber } from '@/lib/units/format'
import { checkColumnCount } from '../guards/columns'
import { isRejectedHeader, QUOTE_OVER_LINES, REJECTED_COLUMNS, UNTERMINATED } from '../report/rejected-columns'
import { type CsvRecord, csvRecords } from '../text/csv-records'
import { decodeText } from '../text/decode'
import { guessDelimiter } from '../text/delimiter'
import { FlatRows } from '../text/flat-rows'
import { headText } from '../text/head-text'
import { placeWords } from '../report/place'
import { type Format, FileRefusal, type RawRow, type RowIssue, type Table } from '../types'
import { nameColumns, unitsRow } from './csv-header'
import { ownRecords } from './own-records'
import { rowAlone, swallowedLines } from './swallowed-lines'

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
  const firstLine = head.slice(0, skip).includes('\n') ? 2 : 1
  const batches = withoutBlanks(csvRecords(skipChars(all, skip), delimiter, notes, firstLine), blanks)
  const start = await readHeader(batches)
  if (isRejectedHeader(start.header.values)) return openRejected(start, batches, notes, blanks, delimiter)
  checkColumnCount(start.header.values.length)
  const { columns, notes: headerNotes } = nameColumns(start.header.values, start.units)
  notes.push(...headerNotes)
  return { columns, rows: new FlatRows(rowsOf(columns, start.rest, batches, notes, blanks, delimiter)), notes, delimiter }
}

/** A CSV of rejected rows comes back: its rows are those of the file they came from, as they stood or as they were corrected. */
function openRejected(
  start: HeaderAndRest, batches: AsyncGenerator<CsvRecord[]>, notes: string[], blanks: { count: number }, delimiter: string,
): Table {
  const own = ownRecords(start.header.values, delimiter)
  checkColumnCount(own.columns.length)
  const { columns } = nameColumns(own.columns, null)
  notes.push(`The file holds rejected rows; its first ${REJECTED_COLUMNS.length} columns say what was wrong and are not read.`)
  async function* records(): AsyncGenerator<CsvRecord[]> {
    try {
      for await (const batch of batches) yield batch.map(own.take)
    } finally {
      await batches.return(undefined)
    }
  }
  const rejectedFrom = Number(start.rest[0]?.values[0] ?? '')
  return {
    columns, rows: new FlatRows(rowsOf(columns, start.rest.map(own.take), records(), notes, blanks, delimiter)), notes, delimiter,
    ...(Number.isSafeInteger(rejectedFrom) && rejectedFrom > 0 && { rejectedFrom }),
  }
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
  if (!header) throw new FileRefusal('empty', 'The file holds nothing but blank lines.', 'Check the export, then import the file again.')
  if (header.unterminated) {
    throw new FileRefusal(
      'truncated', 'The header opens a quote that is never closed, so the columns cannot be told.',
      'Export the file again; it may have been cut off.',
    )
  }
  const below = rest.length > 0 ? rest : (await nextOf(batches)) ?? []
  const units = below[0] && !isRejectedHeader(header.values) ? unitsRow(below[0].values) : null
  return { header, units, rest: units ? below.slice(1) : below }
}

async function* rowsOf(
  columns: string[], first: CsvRecord[], batches: AsyncGenerator<CsvRecord[]>, notes: string[], blanks: { count: number },
  delimiter: string,
): AsyncGenerator<(RawRow | RowIssue)[]> {
  let row = 0
  try {
    for (let batch: CsvRecord[] | undefined = first; batch; batch = await nextOf(batches)) {
      yield batch.map((record) => toRow(record, ++row, columns, delimiter))
    }
  } finally {
    await batches.return(undefined)
  }
  if (blanks.count > 0) notes.push(`${formatNumber(blanks.count, 0)} blank ${blanks.count === 1 ? 'line was' : 'lines were'} skipped.`)
}

const nextOf = async (batches: AsyncGenerator<CsvRecord[]>): Promise<CsvRecord[] | undefined> => {
  const next = await batches.next()
  return next.done ? undefined : next.value
}

function toRow(record: CsvRecord, row: number, columns: string[], delimiter: string): RawRow | RowIssue {
  const { values, raw, line } = record
  const refused = (code: string, message: string, remedy: string, lines?: RawRow[]): RowIssue =>
    ({ severity: 'error', row, line, code, message: `${placeWords(row, line)}: ${message}`, remedy, raw: withoutZeros(raw), ...(lines && { lines }) })
  if (record.unreadable) {
    const { code, message, remedy } = record.unreadable
    return refused(code, message.replace(/^Feature \d+: /, 'the feature in the first of its own cells is wrong: '), remedy)
  }
  if (record.unterminated) {
    return refused(
      UNTERMINATED, 'a quote is opened and never closed before the file ends.',
      'Close the quote, or export the file again; it may have been cut off.', [rowAlone(raw, row, line, columns, delimiter)].filter((one) => one !== undefined),
    )
  }
  if (raw.includes('\0') || raw.includes(ZERO_SHOWN)) {
    return refused('zero-character', 'the row holds a zero character, which no table holds.', 'Export the file again as CSV UTF-8.')
  }
  const swallowed = swallowedLines(record, row, columns, record.delimiter ?? delimiter)
  if (swallowed) {
    const count = raw.split('\n').length
    return refused(
      QUOTE_OVER_LINES, `a quote opened in line ${line} closes in line ${line + count - 1}: ${count} lines became one row.`,
      `Close or remove the quote in line ${line} of the file, and import the whole file again; what is stored already counts once.`, swallowed,
    )
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
  return new CsvRow(row, columns, record)
}

/** No store holds a zero character; this sign shows where one was, and comes back with rejected rows. */
const ZERO_SHOWN = '\u2400'

const withoutZeros = (text: string): string => text.replaceAll('\0', ZERO_SHOWN)

/** Cells by name are made only where somebody asks: readers of many rows go by position. */
class CsvRow implements RawRow {
  readonly line: number
  readonly values: readonly string[]
  readonly raw: string
  readonly geometry: RawRow['geometry']
  readonly origin: RawRow['origin']

  constructor(readonly row: number, private readonly columns: string[], { line, values, raw, geometry, origin }: CsvRecord) {
    this.line = line
    this.values = values
    this.raw = raw
    this.geometry = geometry
    this.origin = origin
  }

  get cells(): Record<string, string> {
    const cells = Object.create(null) as Record<string, string>
    for (let at = 0; at < this.columns.length; at++) cells[this.columns[at]!] = this.values[at] ?? ''
    return cells
  }
}
