import { FileRefusal } from '../types'

/** More columns than this are no table of readings, and would make every row a burden. */
export const MAX_COLUMNS = 500

/** @throws FileRefusal too-many-columns */
export function checkColumnCount(count: number): void {
  if (count <= MAX_COLUMNS) return
  throw new FileRefusal(
    'too-many-columns',
    `The file has ${count.toLocaleString('en-US')} columns, more than the limit of ${MAX_COLUMNS}.`,
    'Export only the columns that are needed; one row is one reading, line, structure or splice.',
  )
}
