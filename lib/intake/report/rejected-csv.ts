import type { RowIssue } from '../types'
import { csvLine } from './guard-cell'
import { cellsOfRaw, objectOfRaw } from './raw-cells'
import { GEOMETRY_COLUMN, QUOTE_OVER_LINES, REJECTED_COLUMNS, UNREADABLE_FEATURE, UNTERMINATED } from './rejected-columns'

export interface RejectedFrom {
  /** Number of the import, so that its mapping and survey are found again. */
  importId?: number
  /** The table's, where it has one. */
  delimiter?: string
}

/**
 * The rejected rows, each once: import, row, line, field, value, code, message and remedy (several errors of a row parted by
 * ' | '), then its own cells under the file's own columns, as many as it had, to be corrected and dropped again. UTF-8 with
 * mark, so that spreadsheets read µ and °; no cell that a spreadsheet would run. Lines come as they are ready: memory is that
 * of one row.
 * @param columns the file's columns
 * @param issues in the order of rows, the raw record with one of each row's; warnings are left out, because their rows were read
 */
export async function* rejectedCsv(
  columns: readonly string[], issues: AsyncIterable<RowIssue> | Iterable<RowIssue>, from: RejectedFrom = {},
): AsyncGenerator<string> {
  let withGeometry: boolean | undefined
  for await (const row of rowsOf(issues)) {
    if (withGeometry === undefined) {
      withGeometry = objectOfRaw(rawOf(row))?.isFeature ?? false
      yield headerOf(columns, withGeometry)
    }
    yield lineOf(columns, row, from, withGeometry)
  }
  if (withGeometry === undefined) yield headerOf(columns, false)
}

/** What the file of rejected rows is called: it stands beside the file that they come from. */
export const rejectedName = (fileName: string): string => `${fileName}.rejected.csv`

const STANDS_WHOLE = new Set<string>([UNTERMINATED, QUOTE_OVER_LINES, ...UNREADABLE_FEATURE])

const headerOf = (columns: readonly string[], withGeometry: boolean): string =>
  `\uFEFF${csvLine([...REJECTED_COLUMNS, ...columns, ...(withGeometry ? [GEOMETRY_COLUMN] : [])])}`

/** The errors of one row together. */
async function* rowsOf(issues: AsyncIterable<RowIssue> | Iterable<RowIssue>): AsyncGenerator<RowIssue[]> {
  let row: RowIssue[] = []
  for await (const issue of issues) {
    if (issue.severity !== 'error') continue
    if (row[0] && row[0].row !== issue.row) {
      yield row
      row = []
    }
    row.push(issue)
  }
  if (row[0]) yield row
}

const rawOf = (issues: readonly RowIssue[]): string => issues.find((issue) => issue.raw !== undefined)?.raw ?? ''

const parted = (issues: readonly RowIssue[], pick: (issue: RowIssue) => string | undefined): string => issues.map((issue) => pick(issue) ?? '').join(' | ')

function lineOf(columns: readonly string[], issues: readonly RowIssue[], { importId, delimiter }: RejectedFrom, withGeometry: boolean): string {
  // What is said of the whole row, as that it is urgent, has no cell: it stands among the codes and messages alone.
  const ofFields = issues.filter(({ field }) => field !== undefined)
  const raw = rawOf(issues)
  const own = STANDS_WHOLE.has(issues[0]!.code) ? { cells: [raw] } : cellsOfRaw(raw, columns, delimiter)
  const geometry = withGeometry && own.cells.length === columns.length ? [own.geometry ? JSON.stringify(own.geometry) : ''] : []
  return csvLine([
    String(importId ?? ''), String(issues[0]!.row), String(issues[0]!.line ?? ''), parted(ofFields, (issue) => issue.field), parted(ofFields, (issue) => issue.value),
    parted(issues, (issue) => issue.code), parted(issues, (issue) => issue.message), parted(issues, (issue) => issue.remedy), ...own.cells, ...geometry,
  ])
}
