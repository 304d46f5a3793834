import { hash128 } from '../hash'

/** What `rejectedCsv` adds; a corrected file of rejected rows is known by the columns before them. */
export const REJECTED_COLUMNS = ['row', 'field', 'value', 'code', 'message', 'remedy'] as const

/** Names the columns of a file, in their order, so that a mapping confirmed once is found again for the next file like it. */
export function headerHash(columns: readonly string[]): string {
  const added = REJECTED_COLUMNS.every((name, at) => columns[columns.length - REJECTED_COLUMNS.length + at] === name)
  const own = added && columns.length > REJECTED_COLUMNS.length ? columns.slice(0, -REJECTED_COLUMNS.length) : columns
  return hash128(own.map((column) => column.trim().toLowerCase()).join('\u001f'))
}
