import { createHash, type Hash } from 'node:crypto'
import type { ImportKind, Mapping } from '@/lib/intake'

/** What makes two imports the same: bytes, kind, survey and mapping. How a column came to be mapped does not count. */
export class ImportIdentity {
  private readonly hash: Hash = createHash('sha256')
  sizeBytes = 0

  add(bytes: Uint8Array): void {
    this.hash.update(bytes)
    this.sizeBytes += bytes.byteLength
  }

  /** Lower-case hexadecimal SHA-256. */
  end(kind: ImportKind, survey: string | null, mapping: Mapping | null): string {
    const meaning = { kind, survey, ...(mapping && meaningOf(mapping)) }
    return this.hash.update(`\0${JSON.stringify(sorted(meaning))}`).digest('hex')
  }
}

/** What a mapping says, however a column came to be mapped. */
const meaningOf = ({ columns, ...rest }: Mapping): object => ({ ...rest, columns: columns.map(({ column, field, unit }) => [column, field, unit ?? null]) })

/** Whether two mappings read the same file differently: other columns, units, zone, order of dates, sign of decimals or set values. */
export function readsOtherwise(a: Mapping, b: Mapping): boolean {
  const [one, other] = [a, b].map(({ columns, survey: _survey, ...rest }) => JSON.stringify(sorted(meaningOf({
    ...rest, columns: columns.filter(({ field }) => field !== null).sort((x, y) => (x.column < y.column ? -1 : 1)),
  }))))
  return one !== other
}

const sorted = (value: object): object => Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
