import type { RowIssue } from '@/lib/intake/types'
import { copyRows } from './copy'
import { fromCursor, pageOf } from './cursor'
import { mustCoverEverything, onEverything, type Scope } from './scope'
import { sql } from './sql/sql'
import { database, type Db, type Tx } from './transaction'

const COLUMNS = ['import_id', 'severity', 'row', 'line', 'field', 'value', 'code', 'message', 'remedy', 'raw_row'] as const
const SHOWN_VALUE_CHARS = 200

/** Issues of an import, by COPY; the raw row is kept with errors only, whose row is kept nowhere else. */
export async function insertIssues(scope: Scope, tx: Tx, importId: number, issues: readonly RowIssue[]): Promise<void> {
  mustCoverEverything(scope)
  await copyRows(tx, 'import_issue', COLUMNS, issues.map((i) => [
    importId, i.severity, i.row, i.line, i.field, i.value?.slice(0, SHOWN_VALUE_CHARS), i.code, i.message, i.remedy, i.severity === 'error' ? i.raw : null,
  ]))
}

/** The remedy of every issue of a code, and of one field where it is named, where only the whole file tells what to do. */
export async function setIssueRemedy(
  scope: Scope, tx: Tx, importId: number, { code, field, remedy }: { code: string; field?: string; remedy: string },
): Promise<void> {
  mustCoverEverything(scope)
  const ofField = field === undefined ? sql`TRUE` : sql`field = ${field}`
  await tx.run(sql`UPDATE import_issue SET remedy = ${remedy} WHERE import_id = ${importId} AND code = ${code} AND ${ofField}`)
}

export interface IssueRow {
  id: number; severity: 'error' | 'warning'; row: number; line: number | null; field: string | null; value: string | null
  code: string; message: string; remedy: string
}

/** Issues in the order of the file. */
export async function listIssues(scope: Scope, importId: number, cursor?: string, limit = 200, db: Db = database()) {
  const asked = ['issues', importId]
  const after = fromCursor(cursor, ['int', 'int'], asked)
  const rows = await db.rows<IssueRow>(sql`
    SELECT id, severity, row, line, field, value, code, message, remedy FROM import_issue
    WHERE import_id = ${importId} AND ${onEverything(scope)} AND ${after ? sql`(row, id) > (${after[0]}::int, ${after[1]}::int)` : sql`TRUE`}
    ORDER BY row, id LIMIT ${limit + 1}`)
  const page = pageOf(rows, limit, (row) => [row.row, row.id], asked)
  return { ...page, items: page.items.map(({ id: _id, ...issue }) => issue) }
}

export interface RejectedRow extends IssueRow { raw: string | null }

/** Every error with its raw row, in pages so that a long list is never held whole. */
export async function* rejectedRows(scope: Scope, importId: number, db: Db = database()): AsyncGenerator<RejectedRow> {
  for (let after = { row: -1, id: 0 }; ;) {
    const rows = await db.rows<RejectedRow>(sql`
      SELECT id, severity, row, line, field, value, code, message, remedy, raw_row AS raw FROM import_issue
      WHERE import_id = ${importId} AND severity = 'error' AND (row, id) > (${after.row}::int, ${after.id}::int) AND ${onEverything(scope)}
      ORDER BY row, id LIMIT 1000`)
    yield* rows
    const last = rows.at(-1)
    if (!last) return
    after = last
  }
}
