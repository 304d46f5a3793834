import { recordsOfText, type CsvRecord } from '../text/csv-records'
import type { RawRow } from '../types'

/** Few cells agree by accident. */
const TELLING_CELLS = 4

/**
 * The lines of a record that an open quote ran through, each as the row that it would be alone, where it has the cells of one; undefined of a
 * record on one line, and of one whose cell merely holds a line break.
 */
export function swallowedLines({ raw, line, values }: CsvRecord, row: number, columns: readonly string[], delimiter: string): RawRow[] | undefined {
  if (!raw.includes('\n')) return undefined
  const lines = raw.split('\n').map((text, at) => rowAlone(text, row, line + at, columns, delimiter))
  const whole = lines.filter((one) => one !== undefined)
  if (values.length !== columns.length) return whole
  // A line that stands between two cells with line breaks of their own begins and ends inside quotes, and is no row as it is quoted.
  const between = raw.split('\n').slice(1, -1).some((text) => quotedCells(text.replace(/\r$/, ''), delimiter).length === columns.length)
  return columns.length >= TELLING_CELLS && (between || (lines[0] !== undefined && lines.at(-1) !== undefined)) ? whole : undefined
}

/** One line by itself: as it is quoted where that makes a row, else with its quotes as plain characters. */
export function rowAlone(text: string, row: number, line: number, columns: readonly string[], delimiter: string): RawRow | undefined {
  const own = text.replace(/\r$/, '')
  const values = [quotedCells(own, delimiter), own.replaceAll('"', '').split(delimiter)].find(({ length }) => length === columns.length)
  return values && { row, line, values, raw: own, cells: Object.fromEntries(columns.map((column, at) => [column, values[at] ?? ''])) }
}

function quotedCells(text: string, delimiter: string): string[] {
  const [record, ...more] = recordsOfText(text, delimiter)
  return record && more.length === 0 && !record.unterminated ? record.values : []
}
