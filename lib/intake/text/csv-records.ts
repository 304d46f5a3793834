import type { Geometry } from 'geojson'
import Papa from 'papaparse'
import type { RowIssue } from '../types'

/** One record of RFC 4180: its cells, and its text without the line break. */
export interface CsvRecord {
  values: string[]
  raw: string
  /** Line of the file on which it begins, from 1. */
  line: number
  /** A quote was opened and never closed; the record is then its first line, and reading goes on at the next. */
  unterminated: boolean
  /** Of a row that came from GeoJSON and was rejected there. */
  geometry?: Geometry
  /** Of a row in our own file of rejected rows: the import and row that it was. */
  origin?: { importId: number; row: number }
  /** What parts its cells, where that is not what parts the others. */
  delimiter?: string
  /** Of a feature that was rejected as unreadable and still is: why. */
  unreadable?: RowIssue
}

/** What parts the cells of the files there are. */
export const DELIMITERS = [',', ';', '\t', '|'] as const

/** Longest record that a file may hold; beyond it an open quote counts as never closed. Keeps memory flat. */
const MAX_RECORD_CHARS = 1 << 20

/** Of a record that cannot be read, so much is shown. */
const MAX_SHOWN_CHARS = 10_000

/** So many records with an unclosed quote, and quotes stop having a meaning: keeps a hostile file linear. */
const MAX_UNTERMINATED = 100

/** Splits text into records, a batch per chunk. Line breaks may be LF, CRLF or both; blank lines come as one empty cell. */
export async function* csvRecords(
  chunks: AsyncIterable<string>, delimiter: string, notes: string[], firstLine = 1,
): AsyncGenerator<CsvRecord[]> {
  const splitter = new Splitter(delimiter, notes, firstLine)
  for await (const chunk of chunks) yield splitter.push(chunk, false)
  yield splitter.push('', true)
}

/** Records of a text that is at hand as a whole. */
export function recordsOfText(text: string, delimiter: string): CsvRecord[] {
  return new Splitter(delimiter, [], 1).push(text, true)
}

class Splitter {
  private rest = ''
  /** No use in looking again before so much text is there: keeps a record that comes in small pieces linear. */
  private wanted = 0
  private unterminatedCount = 0

  constructor(private readonly delimiter: string, private readonly notes: string[], private line: number) {}

  push(chunk: string, isLast: boolean): CsvRecord[] {
    const records: CsvRecord[] = []
    this.rest += chunk
    if (!isLast && this.rest.length < this.wanted) return records
    let text = loneReturnsToFeeds(this.rest, isLast)
    if (isLast && text !== '' && !text.endsWith('\n')) text += '\n'
    for (;;) {
      text = text.slice(this.split(text, records))
      const stuck = isLast ? text.length > 0 : text.length > MAX_RECORD_CHARS
      if (!stuck) break
      text = this.giveUpOnQuote(text, records)
    }
    this.rest = text
    this.wanted = text.length * 2
    return records
  }

  /** Adds the whole records and says how far they reach. */
  private split(text: string, into: CsvRecord[]): number {
    let start = 0
    if (text === '') return start
    const parser = new Papa.Parser({
      delimiter: this.delimiter,
      newline: '\n',
      fastMode: this.unterminatedCount >= MAX_UNTERMINATED ? true : undefined,
      step: (result) => {
        const end = result.meta.cursor
        const record = toRecord(result.data[0] as string[], text, start, end, this.line)
        into.push(record)
        this.line += linesIn(record.raw)
        start = end
      },
    })
    parser.parse(text, 0, true)
    return start
  }

  private giveUpOnQuote(text: string, records: CsvRecord[]): string {
    this.unterminatedCount++
    if (this.unterminatedCount === MAX_UNTERMINATED) {
      this.notes.push(`${MAX_UNTERMINATED} records open a quote that is never closed; from there on quotes are read as plain characters.`)
    }
    const lineEnd = text.indexOf('\n')
    const line = lineEnd === -1 ? text : text.slice(0, lineEnd)
    records.push({ values: [], raw: dropReturn(line.slice(0, MAX_SHOWN_CHARS)), line: this.line++, unterminated: true })
    return lineEnd === -1 ? '' : text.slice(lineEnd + 1)
  }
}

const dropReturn = (text: string): string => (text.charCodeAt(text.length - 1) === 13 ? text.slice(0, -1) : text)

function toRecord(values: string[], text: string, start: number, end: number, line: number): CsvRecord {
  const last = values.length - 1
  const lastValue = values[last]
  if (lastValue !== undefined && lastValue.charCodeAt(lastValue.length - 1) === 13) values[last] = lastValue.slice(0, -1)
  const rawEnd = text.charCodeAt(end - 1) === 10 ? end - 1 : end
  return { values, raw: dropReturn(text.slice(start, rawEnd)), line, unterminated: false }
}

/** Lines that a record takes: more than one where a quoted cell breaks. */
function linesIn(raw: string): number {
  let lines = 1
  for (let at = raw.indexOf('\n'); at !== -1; at = raw.indexOf('\n', at + 1)) lines++
  return lines
}

/** Old files part lines by CR alone; where no LF stands in a long text, CR is the line break. */
function loneReturnsToFeeds(text: string, isLast: boolean): string {
  if (text.includes('\n') || !text.includes('\r')) return text
  const hold = !isLast && text.endsWith('\r') ? 1 : 0
  const body = hold ? text.slice(0, -1) : text
  return body.replaceAll('\r', '\n') + (hold ? '\r' : '')
}
