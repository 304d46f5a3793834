import { REJECTED_COLUMNS } from '../mapping/header-hash'
import type { RowIssue } from '../types'
import { csvLine } from './guard-cell'
import { cellsOfRaw } from './raw-cells'

/**
 * The rejected rows under the file's own columns, each once, followed by row, field, value, code, message and remedy
 * (several errors of a row parted by ' | '), to be corrected and dropped again. UTF-8 with mark, so that spreadsheets
 * read µ and °; no cell that a spreadsheet would run. Lines come as they are ready: memory is that of one row.
 * @param columns the file's columns
 * @param issues in the order of rows, the raw record with one of each row's; warnings are left out, because their rows were read
 * @param delimiter the table's, where it has one
 */
export async function* rejectedCsv(
  columns: readonly string[], issues: AsyncIterable<RowIssue> | Iterable<RowIssue>, delimiter?: string,
): AsyncGenerator<string> {
  yield `\uFEFF${csvLine([...columns, ...REJECTED_COLUMNS])}`
  let row: RowIssue[] = []
  for await (const issue of issues) {
    if (issue.severity !== 'error') continue
    if (row[0] && row[0].row !== issue.row) {
      yield lineOf(columns, row, delimiter)
      row = []
    }
    row.push(issue)
  }
  if (row[0]) yield lineOf(columns, row, delimiter)
}

function lineOf(columns: readonly string[], issues: readonly RowIssue[], delimiter: string | undefined): string {
  const all = (pick: (issue: RowIssue) => string | undefined): string => issues.map((issue) => pick(issue) ?? '').join(' | ')
  const raw = issues.find((issue) => issue.raw !== undefined)?.raw ?? ''
  return csvLine([
    ...cellsOfRaw(raw, columns, delimiter), String(issues[0]!.row), all((issue) => issue.field), all((issue) => issue.value),
    all((issue) => issue.code), all((issue) => issue.message), all((issue) => issue.remedy),
  ])
}
