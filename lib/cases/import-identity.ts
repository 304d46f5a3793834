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
    const { columns, ...rest } = mapping ?? { columns: [] }
    const meaning = { kind, survey, ...(mapping && { ...rest, columns: columns.map(({ column, field, unit }) => [column, field, unit ?? null]) }) }
    return this.hash.update(`\0${JSON.stringify(sorted(meaning))}`).digest('hex')
  }
}

const sorted = (value: object): object => Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
