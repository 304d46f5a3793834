import type { RawRow, RowIssue, Table } from '../types'
import { cellsOfObject } from './geojson-feature'

/**
 * Objects of the API as a table: names are those of the templates, numbers are in the templates' units, lists may be arrays.
 * What is no object becomes an error of its row.
 */
export function tableOfObjects(objects: readonly unknown[]): Table {
  const rows = objects.map((value, at) => rowOf(value, at + 1))
  const columns = [...new Set(rows.flatMap((row) => ('severity' in row ? [] : Object.keys(row.cells))))]
  return {
    columns,
    rows: (async function* () {
      yield* rows
    })(),
    notes: [],
  }
}

function rowOf(value: unknown, row: number): RawRow | RowIssue {
  const raw = (JSON.stringify(value) ?? 'null').replaceAll('\0', '\u2400')
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    const message = `Row ${row}: it is no object.`
    return { severity: 'error', row, code: 'not-an-object', message, remedy: 'Send one object per reading.', raw }
  }
  return { row, cells: Object.fromEntries(cellsOfObject(value as Record<string, unknown>, raw)), raw }
}
