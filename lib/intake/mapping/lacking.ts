import { KINDS } from '../kinds/kinds'
import { columnsOf } from '../normalise/columns'
import type { Mapping } from '../types'

/**
 * Which fields no column is mapped to though a row needs one of them, in a sentence with the columns that there are; null where one is. A row may
 * have what it needs elsewhere all the same: its geometry, or the word of its kind.
 */
export function lackingFields({ kind, columns, values }: Mapping, all: readonly string[]): string | null {
  const { needsOneOf, placedBy } = KINDS[kind]
  const sets = needsOneOf?.map((name) => [name]) ?? placedBy
  const known = new Set([...columns.flatMap(({ field }) => field ?? []), ...Object.keys(values ?? {})])
  if (!sets || sets.some((set) => set.every((name) => known.has(name)))) return null
  const names = sets.map((set) => set.join(' with '))
  return `No column is mapped to any of ${names.slice(0, -1).join(', ')} or ${names.at(-1)}, and every row needs one of them. ${columnsOf(all)}`
}
