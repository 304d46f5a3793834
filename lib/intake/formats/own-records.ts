import type { Geometry } from 'geojson'
import { withoutGuard } from '../cells/spreadsheet'
import { GEOMETRY_COLUMN, REJECTED_COLUMNS, textAfterCells, wasQuoteOverLines, wasUnreadableFeature, wasUnterminated } from '../report/rejected-columns'
import { type CsvRecord, DELIMITERS, recordsOfText } from '../text/csv-records'
import { readFeature } from './geojson-feature'
import { swallowedLines } from './swallowed-lines'

/** The columns that rejected rows had in their file, and each record as it stood there. */
export function ownRecords(header: readonly string[], delimiter: string): { columns: string[]; take(record: CsvRecord): CsvRecord } {
  const own = header.slice(REJECTED_COLUMNS.length)
  const withGeometry = own.at(-1)?.trim() === GEOMETRY_COLUMN
  const columns = withGeometry ? own.slice(0, -1) : own
  return {
    columns,
    take: (record) => {
      const origin = originOf(record)
      const own = takeOwn(record, columns, delimiter, withGeometry)
      return origin ? { ...own, origin } : own
    },
  }
}

/** Which row of which import it was; undefined where somebody has written over it. */
function originOf({ values: [importId = '', row = ''] }: CsvRecord): CsvRecord['origin'] {
  return /^[1-9]\d{0,8}$/.test(importId) && /^[1-9]\d{0,8}$/.test(row) ? { importId: Number(importId), row: Number(row) } : undefined
}

function takeOwn(record: CsvRecord, columns: readonly string[], delimiter: string, withGeometry: boolean): CsvRecord {
  if (record.unterminated) return record
  const values = record.values.slice(REJECTED_COLUMNS.length)
  const [first] = values
  if (values.length === 1 && first !== undefined && wasUnterminated(record.values)) return reread(withoutGuard(first), record, columns.length)
  if (values.length === 1 && first !== undefined && wasQuoteOverLines(record.values)) return linesAgain(withoutGuard(first), record, columns)
  if (first !== undefined && wasUnreadableFeature(record.values)) return featureAgain(withoutGuard(first), record, columns)
  if (withGeometry) return asFeature(record, values, columns)
  return { ...record, values, raw: textAfterCells(record.raw, REJECTED_COLUMNS.length, delimiter) }
}

/** A row that stood whole in one cell, as the line it was: still open, or closed by the person who corrected it. */
function reread(text: string, record: CsvRecord, width: number): CsvRecord {
  for (const mark of DELIMITERS) {
    const [again, ...more] = recordsOfText(text, mark)
    if (again && more.length === 0 && !again.unterminated && again.values.length === width) return { ...again, line: record.line }
  }
  const open = DELIMITERS.some((mark) => recordsOfText(text, mark)[0]?.unterminated)
  return { ...record, values: open ? [] : [text], raw: text, unterminated: open }
}

/** Lines that an open quote made one row, parted by what makes most of them rows; as a row where a person made one of them. */
function linesAgain(text: string, record: CsvRecord, columns: readonly string[]): CsvRecord {
  const found = DELIMITERS.flatMap((delimiter) => {
    const [again, ...more] = recordsOfText(text, delimiter)
    if (!again || more.length > 0 || again.unterminated) return []
    const whole: CsvRecord = { ...again, line: record.line, raw: text, delimiter }
    const lines = swallowedLines(whole, 0, columns, delimiter)
    return lines ? [{ whole, count: lines.length }] : []
  })
  return found.sort((a, b) => b.count - a.count)[0]?.whole ?? reread(text, record, columns.length)
}

/** A feature that stood whole in one cell: read as one where it was corrected there, else with why it is none. */
function featureAgain(text: string, record: CsvRecord, columns: readonly string[]): CsvRecord {
  const feature = readFeature({ text, depth: depthOf(text) }, 1)
  if ('severity' in feature) return { ...record, values: [], raw: feature.raw ?? text, unreadable: feature }
  return { ...record, values: columns.map((column) => feature.cells.get(column) ?? ''), raw: feature.raw, geometry: feature.geometry }
}

/** How deep brackets are nested; those within quotes count too, so that it is never less. */
function depthOf(text: string): number {
  let depth = 0
  let deepest = 0
  for (const sign of text) {
    if (sign === '{' || sign === '[') deepest = Math.max(deepest, ++depth)
    else if (sign === '}' || sign === ']') depth--
  }
  return deepest
}

/** A feature's properties with its geometry: kept as a feature, so that it can be handed back once more. */
function asFeature(record: CsvRecord, values: string[], columns: readonly string[]): CsvRecord {
  const own = [...values.slice(0, columns.length), ...values.slice(columns.length + 1)]
  const geometry = geometryOf(values[columns.length] ?? '')
  const properties = Object.fromEntries(columns.map((column, at) => [column, own[at] ?? '']))
  return { ...record, values: own, raw: JSON.stringify({ type: 'Feature', properties, geometry: geometry ?? null }), geometry }
}

function geometryOf(text: string): Geometry | undefined {
  try {
    const value: unknown = JSON.parse(text)
    return typeof value === 'object' && value !== null && 'type' in value ? (value as Geometry) : undefined
  } catch {
    return undefined
  }
}
