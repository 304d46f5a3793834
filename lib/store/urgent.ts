import type { ByTable, ConductorDoubt } from '@/lib/condition'
import type { UrgentReading } from '@/lib/contract/urgent'
import { copyRows } from './copy'
import { positionTextOf, type PositionRow } from './position'
import { mustCoverEverything, onPlacement, type Scope } from './scope'
import type { ChangeQuestion } from './sql/changes'
import { placeOfNotice, urgentQuestion } from './sql/urgent'
import { sql, type Sql } from './sql/sql'
import { database, type Db, type Tx } from './transaction'

export interface NewNotice {
  readingId: number
  class: 'urgent' | 'critical'
  /** k by the reading's own numbers; null for a sighting. */
  ratio: number | null
  /** Where the conductor reading does not fit the conductor on record: the ratio is provisional. */
  doubt?: ConductorDoubt
  /** Where the ratio stands against the table's conductor. */
  byTable?: ByTable
  /** Best candidate first. */
  circuits: { circuitId: number; circuit: string; probability: number | null }[]
}

/** Raised in the transaction of the reading itself. The same reading, sent again after its import was undone, takes the place of its old alarm. */
export async function insertNotices(scope: Scope, importId: number, tx: Tx, notices: readonly NewNotice[]): Promise<void> {
  mustCoverEverything(scope)
  if (notices.length === 0) return
  await copyRows(tx, 'urgent_notice', ['reading_id', 'class', 'ratio', 'doubt', 'by_table', 'import_id', 'circuits'], notices.map((n) => [
    n.readingId, n.class, n.ratio, n.doubt ? { json: doubtJson(n.doubt) } : null, n.byTable ? { json: n.byTable } : null, importId,
    { json: circuitsJson(n.circuits) },
  ]))
  await tx.run(sql`
    WITH again AS (
      DELETE FROM urgent_notice old USING reading r, reading fresh, urgent_notice u
      WHERE old.acknowledged_at IS NULL AND old.placement_id IS NOT NULL AND r.id = old.reading_id AND fresh.survey_id = r.survey_id
        AND fresh.reading_key = r.reading_key AND NOT fresh.withdrawn
        AND u.reading_id = fresh.id AND u.import_id = ${importId}
        AND (fresh.content_hash = r.content_hash OR u.class = old.class AND u.ratio IS NOT DISTINCT FROM old.ratio) AND NOT EXISTS (SELECT FROM unread_row w WHERE w.notice_id = old.id)
      RETURNING u.id, old.raised_at
    ) UPDATE urgent_notice u SET raised_at = least(u.raised_at, again.raised_at) FROM again WHERE again.id = u.id`)
}

export const doubtJson = ({ conductor, conductorUohm, expectedUohm, unitFactor }: ConductorDoubt): NonNullable<UrgentReading['provisional']> => ({
  conductor, conductor_uohm: conductorUohm, expected_uohm: expectedUohm, ...(unitFactor !== undefined && { unit_factor: unitFactor }),
})

export const circuitsJson = (circuits: NewNotice['circuits']) => circuits.map((c) => ({ circuit_id: c.circuitId, circuit: c.circuit, probability: c.probability }))

type UrgentRow = Omit<UrgentReading, 'position_text'> & PositionRow

/** Which notices: all that wait until the control room is told, or those that are of one import (told or not) with those that its rows met, or one reading's, or one. */
export type WhichNotices = { waiting: true } | { importId: number; met?: readonly number[] } | { readingId: number } | { noticeId: number } | { noticeIds: readonly number[] }

/** Those that an import raised, those of its rows that were not read, those of rows that it brought corrected, and what its rows met. */
const ofImport = (id: number, met: readonly number[]): Sql => sql`(u.import_id = ${id} OR u.id = ANY(${met}::int[]) OR EXISTS (SELECT FROM unread_row o WHERE o.notice_id = u.id AND o.import_id = ${id})
  OR r.import_id = ${id} AND w.id IS NOT NULL)`

/** Condition over `u` and `p`: the notice's reading is within the scope; of a row that was not read, one of the circuits it may be on. */
const onNotice = (scope: Scope): Sql => (scope.circuitIds
  ? sql`(p.id IS NOT NULL AND ${onPlacement(scope, 'p')} OR p.id IS NULL AND ${onCircuitsOf(scope)})` : sql`TRUE`)

const onCircuitsOf = (scope: Scope): Sql => (scope.circuitIds
  ? sql`EXISTS (SELECT FROM jsonb_array_elements(u.circuits) c WHERE (c->>'circuit_id')::int = ANY(${scope.circuitIds}::int[]))` : sql`TRUE`)

/** What is urgent or critical by a reading's own numbers or by an assessment, the worst first, with where it may be. */
export async function listUrgent(scope: Scope, which: WhichNotices = { waiting: true }, db: Db = database()): Promise<UrgentReading[]> {
  const where = 'importId' in which ? ofImport(which.importId, which.met ?? [])
    : 'readingId' in which ? sql`u.reading_id = ${which.readingId}` : 'noticeId' in which ? sql`u.id = ${which.noticeId}`
      : 'noticeIds' in which ? sql`u.id = ANY(${which.noticeIds}::int[])` : sql`u.acknowledged_at IS NULL`
  const rows = await db.rows<UrgentRow>(urgentQuestion(sql`${where} AND ${onNotice(scope)}`))
  const position = await positionTextOf(scope, db)
  return rows.map((row) => {
    const { structure_back: back, structure_ahead: ahead, offset_m: _o, line_distance_m, phase, position: at, circuit_side: _c, subconductor: _s, ...notice } = row
    const saysNothing = line_distance_m === null && !back && !ahead && !phase && !at
    return { ...notice, position_text: saysNothing ? null : position(row) }
  })
}

/** Notices of these readings that the control room was not told of. */
export async function untoldOf(scope: Scope, readingIds: readonly number[], db: Db): Promise<number[]> {
  if (readingIds.length === 0) return []
  const rows = await db.rows<{ id: number }>(sql`
    SELECT u.id FROM urgent_notice u WHERE u.acknowledged_at IS NULL AND u.reading_id = ANY(${readingIds}::int[]) AND ${seen(scope)} ORDER BY u.id`)
  return rows.map(({ id }) => id)
}

/** Notices that were raised since a moment, or of which the control room was told since then; what nobody was told of first, then the worst. */
export const noticesMoved = (scope: Scope, since: Date): ChangeQuestion => ({
  keys: [{ column: 'by_told', type: 'int' }, { column: 'by_class', type: 'int' }, { column: 'by_ratio', type: 'float8' }, { column: 'id', type: 'int' }],
  count: sql`count(*)::int`,
  rows: sql`
    SELECT u.id, (u.acknowledged_at IS NOT NULL)::int AS by_told, -class_rank(u.class) AS by_class, -coalesce(u.ratio, 0) AS by_ratio
    FROM urgent_notice u LEFT JOIN LATERAL (
      SELECT * FROM placement WHERE reading_id = u.reading_id AND current UNION ALL SELECT * FROM placement WHERE id = u.placement_id AND NOT current OFFSET 0
    ) p ON TRUE
    WHERE (u.raised_at > ${since} OR u.acknowledged_at > ${since}) AND ${onNotice(scope)}`,
})

/**
 * The control room was told, of one notice and of what else waits about the same reading. How many waited for it; none where it was told
 * before, or lies outside the scope.
 */
export async function acknowledgeNotice(scope: Scope, which: OneNotice, call: Call, db: Db): Promise<number> {
  return db.run(sql`
    UPDATE urgent_notice u SET acknowledged_at = now(), acknowledged_by = ${call.actor}, told_to = ${call.toldTo ?? null},
      told_at = coalesce(${call.toldAt ?? null}::timestamptz, now())
    WHERE ${meant(which)} AND u.acknowledged_at IS NULL AND ${seen(scope)}`)
}

/** Takes back what was noted by mistake, of one call and while it is fresh. How many wait again. */
export async function unacknowledgeNotice(scope: Scope, which: OneNotice, withinSeconds: number, db: Db): Promise<number> {
  return db.run(sql`
    UPDATE urgent_notice u SET acknowledged_at = NULL, acknowledged_by = NULL, told_to = NULL, told_at = NULL
    WHERE ${meant(which)} AND u.call_id IS NULL AND u.acknowledged_at > now() - make_interval(secs => ${withinSeconds}) AND ${seen(scope)}`)
}

type OneNotice = { readingId: number } | { noticeId: number }

/** Who noted it, whom of the control room was told and when; as it is noted where no time is given. */
export interface Call { actor: string; toldTo?: string; toldAt?: string }

const meant = (which: OneNotice): Sql => ('readingId' in which ? sql`u.reading_id = ${which.readingId}`
  : sql`(u.id = ${which.noticeId} OR u.reading_id = (SELECT reading_id FROM urgent_notice WHERE id = ${which.noticeId}))`)

const seen = (scope: Scope): Sql => sql`(u.reading_id IS NULL AND ${onCircuitsOf(scope)}
  OR EXISTS (SELECT FROM placement p WHERE ${placeOfNotice} AND ${onPlacement(scope, 'p')}))`

/** How many notices wait until the control room is told. */
export const waitingNotices = (scope: Scope) => sql`
  (SELECT count(*) FROM urgent_notice u WHERE u.acknowledged_at IS NULL AND ${seen(scope)})`

/**
 * Where an urgent reading may be, after a person has looked: its candidates, without any the circuit where it is placed, else the one that it
 * names itself. Where none of them is known either it stays as it was raised.
 */
export async function moveNotice(scope: Scope, readingId: number, circuits: NewNotice['circuits'], placedOn: number | null, db: Db): Promise<void> {
  await db.run(sql`
    UPDATE urgent_notice u SET circuits = coalesce(nullif(${JSON.stringify(circuitsJson(circuits))}::jsonb, '[]'), (
      SELECT jsonb_agg(jsonb_build_object('circuit_id', c.id, 'circuit', c.name, 'probability', NULL)) FROM circuit c
      WHERE c.id = ${placedOn}::int OR ${placedOn}::int IS NULL AND lower(c.name) = lower(r.circuit_label)
    ), u.circuits)
    FROM placement p JOIN reading r ON r.id = p.reading_id
    WHERE u.reading_id = ${readingId} AND p.reading_id = u.reading_id AND p.current AND ${onPlacement(scope, 'p')}`)
}

/** Before the readings of an undone import are withdrawn: an alarm outlives its reading, so its place is kept. */
export async function keepNoticePlaces(scope: Scope, importId: number, db: Db): Promise<void> {
  mustCoverEverything(scope)
  await db.run(sql`
    UPDATE urgent_notice u SET placement_id = p.id FROM reading r JOIN placement p ON p.reading_id = r.id AND p.current
    WHERE r.id = u.reading_id AND r.import_id = ${importId} AND NOT r.withdrawn`)
}
