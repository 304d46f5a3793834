import { classRank, type ByTable, type ConductorDoubt } from '@/lib/condition'
import type { RowSays } from '@/lib/contract/urgent'
import { copyRows } from './copy'
import { reserveIds } from './ids'
import { mustCoverEverything, type Scope } from './scope'
import { sameCorrected, sameUnread } from './sql/unread-rows'
import { sql } from './sql/sql'
import type { Tx } from './transaction'
import { circuitsJson, doubtJson, type NewNotice } from './urgent'

/** A row of an import that was not read though its own numbers cannot wait. */
export interface NewUnreadRow {
  row: number
  line: number | null
  survey: string
  /** Its own reading_id; null where it has none. */
  readingKey: string | null
  /** The row that it was in the file that it comes from, where that was one of rejected rows. */
  origin?: RowOrigin
  class: 'urgent' | 'critical'
  ratio: number | null
  doubt?: ConductorDoubt
  byTable?: ByTable
  says: RowSays
  /** A sentence for each fault. */
  why: readonly string[]
  circuits: NewNotice['circuits']
}

export interface RowOrigin { importId: number; row: number }

interface Earlier { at: number; notice_id: number; class: 'urgent' | 'critical'; waiting: boolean }

/**
 * A notice for each row that none covers yet. The same row of another file (by its reading_id, as a row of our own file of rejected rows, or
 * by its place in a file of the same name with the same numbers) joins the notice that there is, told or not: nobody is called twice about
 * it. Where it is worse now, one that waits rises and one that was told is followed by another.
 */
export async function insertUnreadRows(scope: Scope, importId: number, rows: readonly NewUnreadRow[], tx: Tx): Promise<void> {
  mustCoverEverything(scope)
  if (rows.length === 0) return
  const earlier = new Map((await tx.rows<Earlier>(sameUnread(importId, rows))).map((one) => [one.at, one]))
  const fresh: { of: NewUnreadRow; at: number }[] = []
  const noticeOf = new Map<number, number>()
  for (const [at, of] of rows.entries()) {
    const before = earlier.get(at)
    const worse = before !== undefined && classRank(of.class) > classRank(before.class)
    if (!before || (worse && !before.waiting)) fresh.push({ of, at })
    else {
      noticeOf.set(at, before.notice_id)
      if (worse) await rise(before.notice_id, of, tx)
    }
  }
  const ids = await reserveIds(tx, 'urgent_notice', fresh.length)
  fresh.forEach(({ at }, i) => noticeOf.set(at, ids[i] ?? 0))
  await copyRows(tx, 'urgent_notice', ['id', 'class', 'ratio', 'doubt', 'by_table', 'basis', 'import_id', 'circuits'], fresh.map(({ of }, i) => [
    ids[i] ?? 0, of.class, of.ratio, of.doubt ? { json: doubtJson(of.doubt) } : null, of.byTable ? { json: of.byTable } : null, 'row', importId,
    { json: circuitsJson(of.circuits) },
  ]))
  await copyRows(tx, 'unread_row', ['notice_id', 'import_id', 'row_no', 'line', 'survey', 'reading_key', 'says', 'why'], rows.map((of, at) => [
    noticeOf.get(at) ?? 0, importId, of.row, of.line, of.survey, of.readingKey, { json: of.says }, of.why,
  ]))
}

async function rise(noticeId: number, of: NewUnreadRow, tx: Tx): Promise<void> {
  await tx.run(sql`
    UPDATE urgent_notice SET class = ${of.class}, ratio = ${of.ratio}, doubt = ${of.doubt ? JSON.stringify(doubtJson(of.doubt)) : null}::jsonb,
      by_table = ${of.byTable ? JSON.stringify(of.byTable) : null}::jsonb, circuits = ${JSON.stringify(circuitsJson(of.circuits))}::jsonb
    WHERE id = ${noticeId}`)
}

/**
 * Rows that an import brings corrected: the notice of the row becomes that of the reading, with whether the control room was told. What the
 * reading raised itself goes into it, unless that is worse than what was told: then it stands beside it.
 * @param origins rows of this import that were rows of our own file of rejected rows
 */
export async function linkCorrectedRows(scope: Scope, importId: number, origins: ReadonlyMap<number, RowOrigin>, tx: Tx): Promise<void> {
  mustCoverEverything(scope)
  const links = await tx.rows<{ notice_id: number; reading_id: number }>(sameCorrected(importId, origins))
  if (links.length === 0) return
  const link = sql`unnest(${links.map((one) => one.notice_id)}::int[], ${links.map((one) => one.reading_id)}::int[]) AS l (notice_id, reading_id)`
  // Gone before the notice of the row takes the place: a reading has one notice of a class.
  const own = await tx.rows<Record<string, unknown>>(sql`
    DELETE FROM urgent_notice f USING ${link} JOIN urgent_notice u ON u.id = l.notice_id
    WHERE f.reading_id = l.reading_id AND f.id <> u.id AND (u.acknowledged_at IS NULL OR class_rank(f.class) <= class_rank(u.class))
    RETURNING u.id AS notice_id, f.class, f.ratio, f.doubt, f.by_table, f.circuits`)
  await tx.run(sql`
    UPDATE urgent_notice u SET reading_id = l.reading_id, placement_id = NULL,
      circuits = coalesce((
        SELECT jsonb_build_array(jsonb_build_object('circuit_id', c.id, 'circuit', c.name, 'probability', NULL))
        FROM placement p JOIN circuit c ON c.id = p.circuit_id WHERE p.reading_id = l.reading_id AND p.current), u.circuits)
    FROM ${link} WHERE u.id = l.notice_id`)
  await tx.run(sql`
    UPDATE urgent_notice u SET class = f.class, ratio = f.ratio, doubt = f.doubt, by_table = f.by_table, circuits = f.circuits, basis = 'reading'
    FROM jsonb_to_recordset(${JSON.stringify(own)}::jsonb) AS f (notice_id int, class text, ratio float8, doubt jsonb, by_table jsonb, circuits jsonb)
    WHERE u.id = f.notice_id AND u.acknowledged_at IS NULL AND class_rank(f.class) >= class_rank(u.class)`)
}
