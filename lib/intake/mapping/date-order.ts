import { dateOrderEvidence } from '../cells/calendar'
import { findField } from '../kinds/kinds'
import type { DateOrder, Mapping, RawRow, Table } from '../types'

/** True where the file writes dates such as 03/04/2026 and its first rows do not tell which is the month. */
export function needsDateScan(mapping: Mapping, sampleRows: readonly RawRow[]): boolean {
  if (mapping.dateOrder) return false
  const columns = dateColumns(mapping)
  return sampleRows.some(({ cells }) => columns.some((column) => dateOrderEvidence(cells[column] ?? '') !== null))
}

const dateColumns = (mapping: Mapping): string[] => mapping.columns.filter(({ field }) => {
  const type = field === null ? undefined : findField(mapping.kind, field)?.type
  return type === 'instant' || type === 'day'
}).map(({ column }) => column)

/**
 * Reads a whole file for one date that tells the order of day and month (13/04 or 04/13), and stops at the first.
 * Null where no date tells. The table is used up: open the file again for its rows.
 */
export async function findDateOrder(table: Table, mapping: Mapping): Promise<DateOrder | null> {
  const columns = dateColumns(mapping).filter((column) => table.columns.includes(column))
  const positions = columns.map((column) => table.columns.indexOf(column))
  if (columns.length === 0) return null
  for await (const row of table.rows) {
    if ('severity' in row) continue
    for (const [at, column] of columns.entries()) {
      const evidence = dateOrderEvidence((row.values ? row.values[positions[at]!] : row.cells[column]) ?? '')
      if (evidence === 'mdy' || evidence === 'dmy') return evidence
    }
  }
  return null
}
