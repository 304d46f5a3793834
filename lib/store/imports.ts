import type { ImportReport, ImportStatus } from '@/lib/contract/contract'
import type { ImportKind, Mapping } from '@/lib/intake/types'
import { fromCursor, pageOf } from './cursor'
import { onEverything, type Scope } from './scope'
import { iso } from './sql/iso'
import { sql, type Sql } from './sql/sql'
import { database, type Db } from './transaction'

export type ImportState = ImportStatus['state']
export type ImportPhase = 'reading' | 'placing' | 'assessing' | 'storing'

const STATUS: Sql = sql`id, kind, file_name, size_bytes, state, phase, rows_total, rows_done, survey_name AS survey, dry_run,
  ${iso('created_at')} AS created_at, ${iso('finished_at')} AS finished_at, ${iso('undone_at')} AS undone_at, actor, failure, report`

/** What an import needs to run, beside its file. */
export interface ImportRow {
  id: number
  kind: ImportKind
  file_name: string
  state: ImportState
  dry_run: boolean
  mapping: Mapping | null
  header: string[] | null
  survey_name: string | null
  actor: string
}

/** ImportStatus and whether it was a dry run. */
export type ImportStatusRow = ImportStatus & { dry_run: boolean }

export async function getImport(scope: Scope, id: number, db: Db = database()): Promise<ImportStatusRow | undefined> {
  return db.row<ImportStatusRow>(sql`SELECT ${STATUS} FROM import WHERE id = ${id} AND ${onEverything(scope)}`)
}

/** Newest first, without what is still arriving. */
export async function listImports(scope: Scope, cursor?: string, limit = 50, db: Db = database()) {
  const after = fromCursor(cursor, 1)
  const rows = await db.rows<ImportStatusRow>(sql`
    SELECT ${STATUS} FROM import
    WHERE state <> 'receiving' AND ${onEverything(scope)} AND ${after ? sql`id < ${after[0]}::int` : sql`TRUE`}
    ORDER BY id DESC LIMIT ${limit + 1}`)
  return pageOf(rows, limit, (row) => [row.id])
}

export async function importToRun(scope: Scope, id: number, db: Db): Promise<ImportRow | undefined> {
  return db.row<ImportRow>(sql`
    SELECT id, kind, file_name, state, dry_run, mapping, header, survey_name, actor FROM import WHERE id = ${id} AND ${onEverything(scope)}`)
}

export interface NewImport {
  kind: ImportKind
  fileName: string
  surveyName: string | null
  mapping: Mapping | null
  dryRun: boolean
  actor: string
  state: 'receiving' | 'running'
}

/** A row to hang the file and the progress on. Undefined outside a scope of everything. */
export async function insertImport(scope: Scope, i: NewImport, sha256 = '', db: Db = database()): Promise<number | undefined> {
  const row = await db.row<{ id: number }>(sql`
    INSERT INTO import (kind, file_name, sha256, size_bytes, state, mapping, survey_name, dry_run, actor)
    SELECT ${i.kind}, ${i.fileName}, ${sha256}, 0, ${i.state}, ${i.mapping ? JSON.stringify(i.mapping) : null}::jsonb, ${i.surveyName}::text,
      ${i.dryRun}::boolean, ${i.actor} WHERE ${onEverything(scope)}
    RETURNING id`)
  return row?.id
}

/** The import of the same bytes, kind, survey and mapping that waits, runs or was committed and not undone. */
export async function sameImport(scope: Scope, sha256: string, exceptId: number, db: Db = database()): Promise<number | undefined> {
  const row = await db.row<{ id: number }>(sql`
    SELECT id FROM import
    WHERE sha256 = ${sha256} AND id <> ${exceptId} AND NOT dry_run AND state IN ('queued', 'running', 'done') AND ${onEverything(scope)}
    ORDER BY state = 'done' DESC, id LIMIT 1`)
  return row?.id
}

/** A row that came to nothing: its file was the same as an earlier one, or did not arrive whole. */
export async function removeImport(scope: Scope, id: number, db: Db = database()): Promise<void> {
  await db.run(sql`DELETE FROM import WHERE id = ${id} AND state = 'receiving' AND ${onEverything(scope)}`)
}

/** The file is whole: it waits for a worker. */
export async function queueImport(scope: Scope, id: number, sha256: string, sizeBytes: number, db: Db): Promise<void> {
  await db.run(sql`
    UPDATE import SET state = 'queued', sha256 = ${sha256}, size_bytes = ${sizeBytes} WHERE id = ${id} AND ${onEverything(scope)}`)
}

/** Seen by those who wait while the work itself is still uncommitted, so it goes through another connection. */
export async function writeProgress(
  scope: Scope, id: number, p: { phase: ImportPhase; rowsDone: number; rowsTotal?: number }, db: Db = database(),
): Promise<void> {
  await db.run(sql`
    UPDATE import SET state = 'running', phase = ${p.phase}, rows_done = ${p.rowsDone}, rows_total = coalesce(${p.rowsTotal ?? null}::int, rows_total)
    WHERE id = ${id} AND state IN ('queued', 'running') AND ${onEverything(scope)}`)
}

export interface FinishedImport { report: ImportReport; mapping: Mapping; header: string[]; sha256?: string; sizeBytes?: number }

/** Done, with its report, in the transaction of its rows. Returns false where somebody else settled it meanwhile. */
export async function finishImport(scope: Scope, id: number, f: FinishedImport, db: Db): Promise<boolean> {
  return (await db.run(sql`
    UPDATE import SET state = 'done', phase = NULL, finished_at = now(), report = ${JSON.stringify(f.report)}::jsonb, failure = NULL,
      mapping = ${JSON.stringify(f.mapping)}::jsonb, header = ${JSON.stringify(f.header)}::jsonb, rows_total = ${f.report.rows},
      rows_done = ${f.report.rows}, sha256 = coalesce(${f.sha256 ?? null}::text, sha256), size_bytes = coalesce(${f.sizeBytes ?? null}::bigint, size_bytes)
    WHERE id = ${id} AND state IN ('queued', 'running') AND ${onEverything(scope)}`)) === 1
}

/** Nothing of it was stored; `failure` is a sentence with what to do. */
export async function failImport(scope: Scope, id: number, failure: string, db: Db = database()): Promise<void> {
  await db.run(sql`
    UPDATE import SET state = 'failed', phase = NULL, finished_at = now(), failure = ${failure}
    WHERE id = ${id} AND state IN ('receiving', 'queued', 'running') AND ${onEverything(scope)}`)
}

/** Undone, once. */
export async function markUndone(scope: Scope, id: number, db: Db): Promise<boolean> {
  return (await db.run(sql`UPDATE import SET state = 'undone', undone_at = now() WHERE id = ${id} AND state = 'done' AND ${onEverything(scope)}`)) === 1
}
