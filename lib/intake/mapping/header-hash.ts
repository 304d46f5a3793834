import { hash128 } from '../hash'

/** Names the columns of a file, in their order, so that a mapping confirmed once is found again for the next file like it. */
export function headerHash(columns: readonly string[]): string {
  return hash128(columns.map((column) => column.trim().toLowerCase()).join('\u001f'))
}
