import type { ConductorDoubt } from '@/lib/condition'
import type { UrgentReading } from '@/lib/contract/contract'
import { copyRows } from './copy'
import { positionTextOf, type PositionRow } from './position'
import { mustCoverEverything, onPlacement, type Scope } from './scope'
import { placeOfNotice, urgentQuestion } from './sql/urgent'
import { sql } from './sql/sql'
import { database, type Db, type Tx } from './transaction'

export interface NewNotice {
  readingId: number
  class: 'urgent' | 'critical'
  /** k by the reading's own numbers; null for a sighting. */
  ratio: number | null
  /** Where the conductor reading does not fit the conductor on record: the ratio is provisional. */
  doubt?: ConductorDoubt
  /** Best candidate first. */
  circuits: { circuitId: number; circuit: string; probability: number | null }[]
}

/** Raised in the transaction of the reading itself. The same reading, sent again after its import was undone, takes the place of its old alarm. */
export async function insertNotices(scope: Scope, importId: number, tx: Tx, notices: readonly NewNotice[]): Promise<void> {
  mustCoverEverything(scope)
  if (notices.length === 0) return
  await copyRows(tx, 'urgent_notice', ['reading_id', 'class', 'ratio', 'doubt', 'import_id', 'circuits'], notices.map((n) => [
    n.readingId, n.class, n.ratio, n.doubt ? { json: doubtJson(n.doubt) } : null, importId,
    { json: n.circuits.map((c) => ({ circuit_id: c.circuitId, circuit: c.circuit, probability: c.probability })) },
  ]))
  await tx.run(sql`
    WITH again AS (
      DELETE FROM urgent_notice old USING reading r, reading fresh, urgent_notice u
      WHERE old.acknowledged_at IS NULL AND old.placement_id IS NOT NULL AND r.id = old.reading_id AND fresh.survey_id = r.survey_id
        AND fresh.reading_key = r.reading_key AND NOT fresh.withdrawn AND fresh.content_hash = r.content_hash
        AND u.reading_id = fresh.id AND u.import_id = ${importId}
      RETURNING u.id, old.raised_at
    ) UPDATE urgent_notice u SET raised_at = least(u.raised_at, again.raised_at) FROM again WHERE again.id = u.id`)
}

export const doubtJson = ({ conductor, conductorUohm, expectedUohm }: ConductorDoubt): NonNullable<UrgentReading['provisional']> => ({
  conductor, conductor_uohm: conductorUohm, expected_uohm: expectedUohm,
})

type UrgentRow = Omit<UrgentReading, 'position_text'> & PositionRow

/** Which notices: all that wait until the control room is told, or those that one import raised (told or not), or one reading's. */
export type WhichNotices = { waiting: true } | { importId: number } | { readingId: number }

/** What is urgent or critical by a reading's own numbers or by an assessment, the worst first, with where it may be. */
export async function listUrgent(scope: Scope, which: WhichNotices = { waiting: true }, db: Db = database()): Promise<UrgentReading[]> {
  const where = 'importId' in which ? sql`u.import_id = ${which.importId}`
    : 'readingId' in which ? sql`u.reading_id = ${which.readingId}` : sql`u.acknowledged_at IS NULL`
  const rows = await db.rows<UrgentRow>(urgentQuestion(sql`${where} AND ${onPlacement(scope, 'p')}`))
  const position = await positionTextOf(scope, db)
  return rows.map((row) => {
    const { structure_back: _b, structure_ahead: _a, offset_m: _o, line_distance_m, phase: _p, position: _q, circuit_side: _c, subconductor: _s, ...notice } = row
    return { ...notice, position_text: line_distance_m === null && !row.structure_back ? null : position(row) }
  })
}

/** The control room was told. How many notices of the reading waited for it; none where it was told before, or lies outside the scope. */
export async function acknowledgeNotice(scope: Scope, readingId: number, actor: string, db: Db): Promise<number> {
  return db.run(sql`
    UPDATE urgent_notice u SET acknowledged_at = now(), acknowledged_by = ${actor}
    WHERE u.reading_id = ${readingId} AND u.acknowledged_at IS NULL
      AND EXISTS (SELECT FROM placement p WHERE ${placeOfNotice} AND ${onPlacement(scope, 'p')})`)
}

/** How many notices wait until the control room is told. */
export const waitingNotices = (scope: Scope) => sql`
  (SELECT count(*) FROM urgent_notice u WHERE u.acknowledged_at IS NULL
    AND EXISTS (SELECT FROM placement p WHERE ${placeOfNotice} AND ${onPlacement(scope, 'p')}))`

/** Where an urgent reading may be, after a person has looked. */
export async function moveNotice(scope: Scope, readingId: number, circuits: NewNotice['circuits'], db: Db): Promise<void> {
  const stored = circuits.map((c) => ({ circuit_id: c.circuitId, circuit: c.circuit, probability: c.probability }))
  await db.run(sql`
    UPDATE urgent_notice u SET circuits = ${JSON.stringify(stored)}::jsonb FROM placement p
    WHERE u.reading_id = ${readingId} AND p.reading_id = u.reading_id AND p.current AND ${onPlacement(scope, 'p')}`)
}

/** Before the readings of an undone import are withdrawn: an alarm outlives its reading, so its place is kept. */
export async function keepNoticePlaces(scope: Scope, importId: number, db: Db): Promise<void> {
  mustCoverEverything(scope)
  await db.run(sql`
    UPDATE urgent_notice u SET placement_id = p.id FROM reading r JOIN placement p ON p.reading_id = r.id AND p.current
    WHERE r.id = u.reading_id AND r.import_id = ${importId} AND NOT r.withdrawn`)
}
