import type { ImportReport, ImportStatus } from '@/lib/contract/contract'
import { OTHER_VALUES, READ_OTHERWISE } from '@/lib/intake/report/codes'
import type { ImportKind, Mapping } from '@/lib/intake/types'
import { fromCursor, pageOf } from './cursor'
import { dropChunks } from './import-file'
import { onEverything, type Scope } from './scope'
import { iso } from './sql/iso'
import { sql, type Sql } from './sql/sql'
import { database, type Db } from './transaction'

export type ImportState = ImportStatus['state']
export type ImportPhase = 'reading' | 'placing' | 'assessing' | 'storing'

const STATUS: Sql = sql`id, kind, file_name, size_bytes, state, phase, rows_total, rows_done, splices_total, splices_done, survey_name AS survey, dry_run,
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
  delimiter: string | null
  survey_name: string | null
  sha256: string
  actor: string
}

/** ImportStatus and whether it was a dry run. */
export type ImportStatusRow = ImportStatus & { dry_run: boolean }

export async function getImport(scope: Scope, id: number, db: Db = database()): Promise<ImportStatusRow | undefined> {
  return db.row<ImportStatusRow>(sql`SELECT ${STATUS} FROM import WHERE id = ${id} AND ${onEverything(scope)}`)
}

export interface ImportListOptions {
  cursor?: string
  /** 1 … 500, default 50. */
  limit?: number
  /** Only dry runs, or only what was to be kept; absent: both. */
  dryRun?: boolean
}

/** Newest first, without what is still arriving. */
export async function listImports(scope: Scope, { cursor, limit = 50, dryRun }: ImportListOptions = {}, db: Db = database()) {
  const asked = ['imports', dryRun]
  const after = fromCursor(cursor, ['int'], asked)
  const rows = await db.rows<ImportStatusRow>(sql`
    SELECT ${STATUS} FROM import
    WHERE state <> 'receiving' AND ${dryRun === undefined ? sql`TRUE` : sql`dry_run = ${dryRun}`} AND ${onEverything(scope)} AND ${after ? sql`id < ${after[0]}::int` : sql`TRUE`}
    ORDER BY id DESC LIMIT ${limit + 1}`)
  return pageOf(rows, limit, (row) => [row.id], asked)
}

export async function importToRun(scope: Scope, id: number, db: Db): Promise<ImportRow | undefined> {
  return db.row<ImportRow>(sql`
    SELECT id, kind, file_name, state, dry_run, mapping, header, delimiter, survey_name, sha256, actor FROM import WHERE id = ${id} AND ${onEverything(scope)}`)
}

export interface NewImport {
  kind: ImportKind
  fileName: string
  surveyName: string | null
  mapping: Mapping | null
  dryRun: boolean
  actor: string
  /** Of the file with kind, survey and mapping; null while it is still arriving. */
  known: { sha256: string; sizeBytes: number } | null
}

/** A row to hang the file and the progress on: receiving, or waiting where the file is known. Undefined outside a scope of everything. */
export async function insertImport(scope: Scope, i: NewImport, db: Db = database()): Promise<number | undefined> {
  const row = await db.row<{ id: number }>(sql`
    INSERT INTO import (kind, file_name, sha256, size_bytes, state, mapping, survey_name, dry_run, actor)
    SELECT ${i.kind}, ${i.fileName}, ${i.known?.sha256 ?? ''}, ${i.known?.sizeBytes ?? 0}, ${i.known ? 'queued' : 'receiving'},
      ${i.mapping ? JSON.stringify(i.mapping) : null}::jsonb, ${i.surveyName}::text,
      ${i.dryRun}::boolean, ${i.actor} WHERE ${onEverything(scope)}
    RETURNING id`)
  return row?.id
}

/**
 * The import of the same bytes, kind, survey and mapping that was committed and not undone or, unless only that is wanted, that a worker has
 * in its queue. One that a command began may have died with it, so it does not count until it is done. Neither does one that found rows held
 * already where an import was undone since: those rows may be gone, and its report with them.
 */
export async function sameImport(scope: Scope, sha256: string, exceptId: number, which: 'done' | 'done or queued', db: Db = database()): Promise<number | undefined> {
  const queued = which === 'done' ? sql`FALSE` : sql`i.state IN ('queued', 'running') AND ${HAS_JOB}`
  const row = await db.row<{ id: number }>(sql`
    SELECT i.id FROM import i
    WHERE i.sha256 = ${sha256} AND i.id <> ${exceptId} AND NOT i.dry_run AND (i.state = 'done' AND NOT i.leans_on_undone OR ${queued})
      AND ${onEverything(scope)}
    ORDER BY i.state = 'done' DESC, i.id LIMIT 1`)
  return row?.id
}

const HAS_JOB = sql`EXISTS (SELECT FROM job j WHERE j.kind = 'import' AND j.state = 'queued' AND (j.payload->>'importId')::int = i.id)`

/** A row that came to nothing: its file was the same as an earlier one, or did not arrive whole. */
export async function removeImport(scope: Scope, id: number, db: Db = database()): Promise<void> {
  await db.run(sql`DELETE FROM import WHERE id = ${id} AND state = 'receiving' AND ${onEverything(scope)}`)
}

/** The file is whole: it waits for a worker. */
export async function queueImport(scope: Scope, id: number, sha256: string, sizeBytes: number, db: Db): Promise<void> {
  await db.run(sql`
    UPDATE import SET state = 'queued', sha256 = ${sha256}, size_bytes = ${sizeBytes} WHERE id = ${id} AND ${onEverything(scope)}`)
}

/** How far an import is: rows while they are read and placed, splices while they are assessed. What is not given stays as it was. */
export interface ImportProgress { phase: ImportPhase; rowsDone?: number; rowsTotal?: number; splicesDone?: number; splicesTotal?: number }

/**
 * Seen by those who wait while the work itself is still uncommitted, so it goes through another connection. Returns false where the
 * import is no longer under way.
 */
export async function writeProgress(scope: Scope, id: number, p: ImportProgress, db: Db = database()): Promise<boolean> {
  const orAsItWas = (value: number | undefined, column: Sql): Sql => sql`coalesce(${value ?? null}::int, ${column})`
  return (await db.run(sql`
    UPDATE import SET state = 'running', phase = ${p.phase}, rows_done = ${orAsItWas(p.rowsDone, sql`rows_done`)},
      rows_total = ${orAsItWas(p.rowsTotal, sql`rows_total`)}, splices_done = ${orAsItWas(p.splicesDone, sql`splices_done`)},
      splices_total = ${orAsItWas(p.splicesTotal, sql`splices_total`)}
    WHERE id = ${id} AND state IN ('queued', 'running') AND ${onEverything(scope)}`)) === 1
}

/**
 * Calls off an import that waits or runs, and drops its file. The transaction of its rows finds it so before it commits and is rolled back;
 * one that commits at this moment is waited for. Returns false where it was not under way any more.
 */
export async function markCancelled(scope: Scope, id: number, db: Db): Promise<boolean> {
  const cancelled = await db.run(sql`
    UPDATE import SET state = 'cancelled', phase = NULL, finished_at = now()
    WHERE id = ${id} AND state IN ('queued', 'running') AND ${onEverything(scope)}`)
  if (cancelled === 1) await dropChunks(scope, id, db)
  return cancelled === 1
}

export interface FinishedImport { report: ImportReport; mapping: Mapping; header: string[]; delimiter: string | null }

/** Done, with its report, in the transaction of its rows. Returns false where somebody else settled it meanwhile. */
export async function finishImport(scope: Scope, id: number, f: FinishedImport, db: Db): Promise<boolean> {
  return (await db.run(sql`
    UPDATE import SET state = 'done', phase = NULL, finished_at = now(), report = ${JSON.stringify(f.report)}::jsonb, failure = NULL,
      mapping = ${JSON.stringify(f.mapping)}::jsonb, header = ${JSON.stringify(f.header)}::jsonb, delimiter = ${f.delimiter}, rows_total = ${f.report.rows},
      rows_done = ${f.report.rows}
    WHERE id = ${id} AND state IN ('queued', 'running') AND ${onEverything(scope)}`)) === 1
}

/** Nothing of it was stored; `failure` is a sentence with what to do. */
export async function failImport(scope: Scope, id: number, failure: string, db: Db = database()): Promise<void> {
  await db.run(sql`
    UPDATE import SET state = 'failed', phase = NULL, finished_at = now(), failure = ${failure}
    WHERE id = ${id} AND state IN ('receiving', 'queued', 'running') AND ${onEverything(scope)}`)
}

/** Undone, once. Later imports that found rows held already, or refused them for that, may have meant rows of this one: their files may be imported again. */
export async function markUndone(scope: Scope, id: number, db: Db): Promise<boolean> {
  await db.run(sql`
    UPDATE import SET leans_on_undone = TRUE
    WHERE state = 'done' AND NOT dry_run AND id > ${id} AND ${onEverything(scope)} AND ((report->>'already_held')::int > 0
      OR EXISTS (SELECT FROM import_issue s WHERE s.import_id = import.id AND s.code IN (${READ_OTHERWISE}, ${OTHER_VALUES})))`)
  return (await db.run(sql`UPDATE import SET state = 'undone', undone_at = now() WHERE id = ${id} AND state = 'done' AND ${onEverything(scope)}`)) === 1
}

/**
 * Imports whose process died: a running one that does not hold the lock we hold and that no job will take up again, one that stopped
 * arriving, one that waited in a command. Nothing of them was stored.
 */
export async function failBroken(scope: Scope, exceptId: number, db: Db): Promise<void> {
  await db.run(sql`
    WITH broken AS (
      UPDATE import i SET state = 'failed', phase = NULL, finished_at = now(), failure = 'It was broken off and nothing of it was stored. Import the file again.'
      WHERE i.id <> ${exceptId} AND ${onEverything(scope)} AND (
        i.state = 'receiving' AND i.created_at < now() - interval '6 hours'
        OR i.state IN ('running', 'queued') AND NOT ${HAS_JOB} AND (i.state = 'running' OR i.created_at < now() - interval '1 day'))
      RETURNING i.id
    ) DELETE FROM import_chunk c USING broken b WHERE c.import_id = b.id`)
}
