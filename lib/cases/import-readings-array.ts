import type { RawRow, Table } from '@/lib/intake'
import type { Result } from '@/lib/result/result'
import type { Scope } from '@/lib/store/scope'
import { database } from '@/lib/store/transaction'
import { formatNumber } from '@/lib/units/format'
import { ImportIdentity } from './import-identity'
import { importNow, type Imported } from './import-from-stream'
import { mapped } from './importing/open-mapped'
import { refuse, type CaseError } from './problem'

/** A reading as another program sends it: the template's names, values of any simple type. */
export type ReadingRow = Record<string, string | number | boolean | null | string[]>

const MOST_ROWS = 10_000

/** Readings from another program: the same way as a file's, with the same report. */
export async function importReadingsArray(
  scope: Scope, rows: readonly ReadingRow[], options: { survey?: string | null; actor: string },
): Promise<Result<Imported, CaseError>> {
  if (rows.length === 0) return refuse('empty', 'The list of readings is empty.', 'Send at least one reading.')
  if (rows.length > MOST_ROWS) {
    return refuse('too-large', `${formatNumber(rows.length, 0)} readings were sent at once; ${formatNumber(MOST_ROWS, 0)} is the limit.`, 'Send them in several lists, or import a file.')
  }
  const identity = new ImportIdentity()
  identity.add(Buffer.from(JSON.stringify(rows)))
  return importNow(scope, 'API', identity, { kind: 'readings', ...options }, (open) => mapped(scope, tableOf(rows), { ...open, judgesRowsAlone: true }, database()))
}

function tableOf(rows: readonly ReadingRow[]): Table {
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))]
  async function* all(): AsyncGenerator<RawRow> {
    for (const [i, row] of rows.entries()) {
      yield { row: i + 1, cells: Object.fromEntries(columns.map((column) => [column, cellOf(row[column])])), raw: JSON.stringify(row) }
    }
  }
  return { columns, rows: all(), notes: [] }
}

function cellOf(value: ReadingRow[string] | undefined): string {
  if (value === null || value === undefined) return ''
  return Array.isArray(value) ? value.join(';') : String(value)
}
