import type { ImportReport } from '@/lib/contract/contract'
import { guessMapping } from '@/lib/intake'
import { FileRefusal, type ImportKind, type Mapping, type RawRow, type RowIssue } from '@/lib/intake/types'
import type { OpenedFile } from './open-mapped'

const SAMPLES = 3

/** A header and nothing under it: nothing is wrong with any row, so the file itself is. */
export const noRows = (): FileRefusal => new FileRefusal('no-rows', 'There are no rows under the header.', 'Export the file again with its rows.')

/** The first different cells of a column that hold something. */
export function samplesOf(column: string, rows: readonly (RawRow | RowIssue)[]): string[] {
  const found = rows.map((row) => ('cells' in row ? row.cells[column] ?? '' : '').trim()).filter((cell) => cell !== '')
  return [...new Set(found)].slice(0, SAMPLES)
}

/** Columns that no field was found for. A file of features may name more of them as it goes on; points among lines name structures. */
export function ignoredColumns(kind: ImportKind, { columns, mapping, first }: OpenedFile): ImportReport['ignored_columns'] {
  const ofPoints = kind === 'lines' ? guessMapping(columns, [], 'structures').columns : []
  const used = new Set([...mapping.columns, ...ofPoints].filter((column) => column.field !== null).map((column) => column.column))
  return columns.filter((column) => !used.has(column)).map((column) => ({ column, samples: samplesOf(column, first) }))
}

/** In which a field's column was read; undefined where there is none, or none was named. */
export const unitOfField = ({ columns }: Mapping, field: string): string | undefined => columns.find((one) => one.field === field)?.unit
