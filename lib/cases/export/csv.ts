import { csvLine } from '@/lib/intake'
import type { AboutExport } from './about'
import { cellsOf, COLUMNS, type ExportRow } from './columns'

/**
 * RFC 4180 with a UTF-8 mark, so that spreadsheets read its letters; no cell that a spreadsheet would run. RFC 4180 knows no remarks, so mark,
 * time and caution are the last columns of every row: spreadsheets and imports take them as they are, and they stay with a row that is copied.
 */
export async function* splicesCsv(about: AboutExport, rows: AsyncIterable<ExportRow>): AsyncGenerator<string> {
  yield `\uFEFF${csvLine(COLUMNS)}`
  for await (const row of rows) yield csvLine(cellsOf(row, about).map(([, cell]) => (cell === null ? '' : String(cell))))
}
