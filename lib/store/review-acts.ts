import type { ReviewAct, ReviewActKind, ReviewChoice } from '@/lib/contract/review-acts'
import type { PlacementCandidate, ReviewCause } from '@/lib/geo'
import { mustCoverEverything, onPlacement, type Scope } from './scope'
import { iso } from './sql/iso'
import { sql, type Sql } from './sql/sql'
import { database, type Db, type Tx } from './transaction'

/** So many waiting readings are held at a time, with their candidates. */
const BATCH = 5_000

export interface ChosenRow {
  placement_id: number; reading_id: number; import_id: number; cause: ReviewCause | null; urgent: boolean; phase: string | null; position: string | null
  circuit_side: string | null; subconductor: string | null; splice_label: string | null; candidates: PlacementCandidate[]
}

const chosen = (scope: Scope, { import_id: importId, cause, reading_ids: readingIds }: ReviewChoice): Sql => sql`
  p.current AND p.state = 'review' AND NOT r.withdrawn AND ${onPlacement(scope, 'p')}
  AND ${importId === undefined ? sql`TRUE` : sql`r.import_id = ${importId}`} AND ${cause === undefined ? sql`TRUE` : sql`p.review_cause = ${cause}`}
  AND ${readingIds === undefined ? sql`TRUE` : sql`r.id = ANY(${readingIds}::int[])`}`

const isUrgent = sql`EXISTS (SELECT FROM urgent_notice u WHERE u.reading_id = r.id)`

/** Waiting readings in the order in which they came, by and by. `hold`: against other decisions, until the transaction ends. */
export async function* eachChosen(scope: Scope, choice: ReviewChoice, { upTo, hold }: { upTo: number; hold: boolean }, db: Db): AsyncGenerator<ChosenRow[]> {
  for (let after = 0; ;) {
    const rows = await db.rows<ChosenRow>(sql`
      SELECT p.id AS placement_id, r.id AS reading_id, r.import_id, p.review_cause AS cause, ${isUrgent} AS urgent, r.phase, r.position, r.circuit_side, r.subconductor,
        r.splice_label, p.candidates
      FROM placement p JOIN reading r ON r.id = p.reading_id
      WHERE ${chosen(scope, choice)} AND p.id > ${after} AND p.id <= ${upTo} ORDER BY p.id LIMIT ${BATCH} ${hold ? sql`FOR NO KEY UPDATE OF p` : sql``}`)
    if (rows.length > 0) yield rows
    if (rows.length < BATCH) return
    after = rows.at(-1)?.placement_id ?? after
  }
}

/** How many are chosen, and how many of them are urgent or critical. */
export async function countChosen(scope: Scope, choice: ReviewChoice, db: Db): Promise<{ chosen: number; urgent: number }> {
  return await db.row<{ chosen: number; urgent: number }>(sql`
    SELECT count(*)::int AS chosen, (count(*) FILTER (WHERE ${isUrgent}))::int AS urgent
    FROM placement p JOIN reading r ON r.id = p.reading_id WHERE ${chosen(scope, choice)}`) ?? { chosen: 0, urgent: 0 }
}

export async function importsWaiting(scope: Scope, cause: ReviewCause | undefined, db: Db): Promise<{ import_id: number; file_name: string; count: number }[]> {
  return db.rows(sql`
    SELECT i.id AS import_id, i.file_name, w.count FROM (
      SELECT r.import_id, count(*)::int AS count FROM placement p JOIN reading r ON r.id = p.reading_id WHERE ${chosen(scope, { cause })} GROUP BY 1
    ) w JOIN import i ON i.id = w.import_id ORDER BY i.id DESC`)
}

export const latestPlacementId = async (scope: Scope, db: Db): Promise<number> =>
  (await db.row<{ id: number }>(sql`SELECT coalesce(max(id), 0) AS id FROM placement p WHERE ${onPlacement(scope, 'p')}`))?.id ?? 0

export interface NewAct { action: ReviewActKind; reason: string | null; choice: ReviewChoice; upTo: number; actor: string }

export async function insertReviewAct(scope: Scope, { action, reason, choice, upTo, actor }: NewAct, db: Db): Promise<number> {
  mustCoverEverything(scope)
  const row = await db.row<{ id: number }>(sql`
    INSERT INTO review_act (action, reason, choice, up_to_placement_id, actor) VALUES (${action}, ${reason}, ${JSON.stringify(choice)}::jsonb, ${upTo}, ${actor}) RETURNING id`)
  return row?.id ?? 0
}

export type StoredAct = ReviewAct & { up_to: number }

const columns = sql`
  id, action, reason, choice, up_to_placement_id AS up_to, actor, ${iso('created_at')} AS created_at, ${iso('done_at')} AS done_at, settled, left_waiting,
  ${iso('undone_at')} AS undone_at, undone_by, restored, failure, job_id`

export async function lockReviewAct(scope: Scope, id: number, db: Db): Promise<StoredAct | undefined> {
  mustCoverEverything(scope)
  return db.row<StoredAct>(sql`SELECT ${columns} FROM review_act WHERE id = ${id} FOR UPDATE`)
}

export async function listReviewActs(scope: Scope, id: number | null = null, db: Db = database()): Promise<ReviewAct[]> {
  mustCoverEverything(scope)
  const rows = await db.rows<StoredAct>(sql`SELECT ${columns} FROM review_act WHERE ${id === null ? sql`TRUE` : sql`id = ${id}`} ORDER BY id DESC LIMIT 20`)
  return rows.map(({ up_to: _upTo, ...act }) => act)
}

export async function setActJob(scope: Scope, id: number, jobId: number, db: Db): Promise<void> {
  mustCoverEverything(scope)
  await db.run(sql`UPDATE review_act SET job_id = ${jobId}, failure = NULL WHERE id = ${id}`)
}

export async function endReviewAct(scope: Scope, id: number, counts: { settled: number; leftWaiting: number }, db: Db): Promise<void> {
  mustCoverEverything(scope)
  await db.run(sql`UPDATE review_act SET done_at = now(), settled = ${counts.settled}, left_waiting = ${counts.leftWaiting}, failure = NULL WHERE id = ${id}`)
}

export async function markActUndone(scope: Scope, id: number, by: string, restored: number, db: Db): Promise<void> {
  mustCoverEverything(scope)
  await db.run(sql`UPDATE review_act SET undone_at = now(), undone_by = ${by}, restored = ${restored} WHERE id = ${id}`)
}

export async function failReviewAct(scope: Scope, id: number, failure: string, db: Db = database()): Promise<void> {
  mustCoverEverything(scope)
  await db.run(sql`UPDATE review_act SET failure = ${failure} WHERE id = ${id} AND done_at IS NULL`)
}

export interface SettledRow {
  placementId: number
  place: { circuitId: number; sectionId: number; spanId: number; lineDistanceM: number; lon: number; lat: number; offsetM: number; spliceId: number; probability: number } | null
}

/** Another placement takes the place of each that waited, as a person's word, and the trail has each by itself. */
export async function supersedeMany(scope: Scope, act: { id: number; actor: string; reasons: object[] }, rows: readonly SettledRow[], tx: Tx): Promise<void> {
  mustCoverEverything(scope)
  if (rows.length === 0) return
  const of = <T>(pick: (row: SettledRow) => T): T[] => rows.map(pick)
  const ended = await tx.run(sql`UPDATE placement SET current = FALSE WHERE id = ANY(${of((r) => r.placementId)}::int[]) AND current AND state = 'review'`)
  if (ended !== rows.length) throw new Error('Some of these readings were decided on meanwhile.')
  await tx.run(sql`
    WITH fresh AS (
      INSERT INTO placement (reading_id, state, circuit_id, section_id, span_id, splice_id, line_distance_m, lon, lat, offset_m, probability, method, reasons,
        candidates, import_id, supersedes_id, decided_by, review_act_id)
      SELECT p.reading_id, CASE WHEN n.splice_id IS NULL THEN 'rejected' ELSE 'placed' END, n.circuit_id, n.section_id, n.span_id, n.splice_id, n.line_m, n.lon, n.lat,
        n.offset_m, n.probability, 'person', ${JSON.stringify(act.reasons)}::json, p.candidates, p.import_id, p.id, ${act.actor}, ${act.id}
      FROM unnest(${of((r) => r.placementId)}::int[], ${of((r) => r.place?.circuitId ?? null)}::int[], ${of((r) => r.place?.sectionId ?? null)}::int[],
        ${of((r) => r.place?.spanId ?? null)}::int[], ${of((r) => r.place?.spliceId ?? null)}::int[], ${of((r) => r.place?.lineDistanceM ?? null)}::float8[],
        ${of((r) => r.place?.lon ?? null)}::float8[], ${of((r) => r.place?.lat ?? null)}::float8[], ${of((r) => r.place?.offsetM ?? null)}::float8[],
        ${of((r) => r.place?.probability ?? null)}::float8[])
        AS n(placement_id, circuit_id, section_id, span_id, splice_id, line_m, lon, lat, offset_m, probability)
      JOIN placement p ON p.id = n.placement_id
      RETURNING reading_id, state, splice_id
    )
    INSERT INTO audit_entry (actor, action, subject_kind, subject_id, detail)
    SELECT ${act.actor}, CASE state WHEN 'rejected' THEN 'placement.rejected' ELSE 'placement.accepted' END, 'reading', reading_id,
      jsonb_build_object('review_act', ${act.id}::int, 'from', jsonb_build_object('state', 'review', 'splice_id', NULL), 'to', jsonb_build_object('state', state, 'splice_id', splice_id))
    FROM fresh`)
}

/** What stood before an act stands again, where nobody decided otherwise since. Returns how many, and the splices and imports they leave. */
export async function restoreMany(scope: Scope, act: { id: number; actor: string }, tx: Tx): Promise<{ readings: number; left: { splice_id: number; import_id: number; circuit_id: number }[] }> {
  mustCoverEverything(scope)
  await tx.run(sql`
    CREATE TEMP TABLE restored ON COMMIT DROP AS
    SELECT p.id, p.reading_id, p.supersedes_id, p.splice_id, p.import_id, p.circuit_id
    FROM placement p JOIN reading r ON r.id = p.reading_id WHERE p.review_act_id = ${act.id} AND p.current AND NOT r.withdrawn
    ORDER BY p.id FOR NO KEY UPDATE OF p`)
  await tx.run(sql`UPDATE placement p SET current = FALSE FROM restored x WHERE x.id = p.id AND p.current`)
  const readings = await tx.run(sql`
    INSERT INTO placement (reading_id, state, circuit_id, section_id, span_id, splice_id, line_distance_m, lon, lat, offset_m, probability, method, reasons,
      review_cause, candidates, import_id, supersedes_id, decided_by)
    SELECT b.reading_id, b.state, b.circuit_id, b.section_id, b.span_id, b.splice_id, b.line_distance_m, b.lon, b.lat, b.offset_m, b.probability, b.method, b.reasons,
      b.review_cause, b.candidates, b.import_id, b.supersedes_id, b.decided_by
    FROM restored x JOIN placement b ON b.id = x.supersedes_id`)
  await tx.run(sql`
    INSERT INTO audit_entry (actor, action, subject_kind, subject_id, detail)
    SELECT ${act.actor}, 'placement.taken-back', 'reading', reading_id,
      jsonb_build_object('review_act', ${act.id}::int, 'from', jsonb_build_object('splice_id', splice_id), 'to', jsonb_build_object('state', 'review', 'splice_id', NULL))
    FROM restored`)
  const left = await tx.rows<{ splice_id: number; import_id: number; circuit_id: number }>(
    sql`SELECT DISTINCT splice_id, import_id, circuit_id FROM restored WHERE splice_id IS NOT NULL`)
  return { readings, left }
}

/** Of these splices, those in service, with what a reading must agree with. */
export async function splicesAt(scope: Scope, ids: readonly number[], db: Db): Promise<Map<number, { circuitId: number; phase: string | null }>> {
  mustCoverEverything(scope)
  const rows = await db.rows<{ id: number; circuit_id: number; phase: string | null }>(
    sql`SELECT id, circuit_id, phase FROM splice WHERE id = ANY(${ids}::int[]) AND removed_on IS NULL`)
  return new Map(rows.map((row) => [row.id, { circuitId: row.circuit_id, phase: row.phase }]))
}

export interface PlaceRow { n: number; span_id: number; circuit_id: number; structure_back_id: number | null; start_m: number; is_beside: boolean }

/** The spans of these places on the lines as they are now, and whether a splice that may be the same stands within `apartM`. */
export async function spansAt(scope: Scope, places: readonly { sectionId: number; lineDistanceM: number; phase: string | null }[], apartM: number, db: Db): Promise<Map<number, PlaceRow>> {
  mustCoverEverything(scope)
  const rows = await db.rows<PlaceRow>(sql`
    SELECT a.n::int AS n, sp.id AS span_id, sec.circuit_id, sp.structure_back_id, sp.start_m, EXISTS (
      SELECT FROM splice s WHERE s.section_id = a.section_id AND s.removed_on IS NULL AND abs(s.line_distance_m - a.line_m) <= ${apartM}
        AND (s.phase IS NULL OR a.phase IS NULL OR s.phase = a.phase)) AS is_beside
    FROM unnest(${places.map((p) => p.sectionId)}::int[], ${places.map((p) => p.lineDistanceM)}::float8[], ${places.map((p) => p.phase)}::text[])
      WITH ORDINALITY AS a(section_id, line_m, phase, n)
    JOIN section sec ON sec.id = a.section_id
    JOIN LATERAL (SELECT id, structure_back_id, start_m FROM span WHERE section_id = a.section_id
      ORDER BY start_m <= a.line_m DESC, CASE WHEN start_m <= a.line_m THEN -start_m ELSE start_m END LIMIT 1) sp ON TRUE`)
  return new Map(rows.map((row) => [row.n - 1, row]))
}
