import type { UrgentReading } from '@/lib/contract/contract'
import { copyRows } from './copy'
import { positionTextOf, type PositionRow } from './position'
import { mustCoverEverything, onPlacement, type Scope } from './scope'
import { urgentQuestion } from './sql/urgent'
import { sql } from './sql/sql'
import { database, type Db, type Tx } from './transaction'

export interface NewNotice {
  readingId: number
  class: 'urgent' | 'critical'
  /** k by the reading's own numbers; null for a sighting. */
  ratio: number | null
  /** Best candidate first. */
  circuits: { circuitId: number; circuit: string; probability: number | null }[]
}

/** Raised in the transaction of the reading itself. */
export async function insertNotices(scope: Scope, tx: Tx, notices: readonly NewNotice[]): Promise<void> {
  mustCoverEverything(scope)
  if (notices.length === 0) return
  await copyRows(tx, 'urgent_notice', ['reading_id', 'class', 'ratio', 'circuits'], notices.map((n) => [n.readingId, n.class, n.ratio, {
    json: n.circuits.map((c) => ({ circuit_id: c.circuitId, circuit: c.circuit, probability: c.probability })),
  }]))
}

type UrgentRow = Omit<UrgentReading, 'position_text'> & PositionRow

/** Which notices: all that wait to be acknowledged, or those of one import (acknowledged or not), or one reading's. */
export type WhichNotices = { waiting: true } | { importId: number } | { readingId: number }

/** Readings whose own numbers are urgent or critical, the worst first, with where they may be. */
export async function listUrgent(scope: Scope, which: WhichNotices = { waiting: true }, db: Db = database()): Promise<UrgentReading[]> {
  const where = 'importId' in which ? sql`r.import_id = ${which.importId}`
    : 'readingId' in which ? sql`r.id = ${which.readingId}` : sql`u.acknowledged_at IS NULL`
  const rows = await db.rows<UrgentRow>(urgentQuestion(sql`${where} AND ${onPlacement(scope, 'p')}`))
  const position = await positionTextOf(scope, db)
  return rows.map((row) => {
    const { structure_back: _b, structure_ahead: _a, offset_m: _o, line_distance_m, phase: _p, position: _q, circuit_side: _c, subconductor: _s, ...notice } = row
    return { ...notice, position_text: line_distance_m === null && !row.structure_back ? null : position(row) }
  })
}

/** Somebody has taken notice. False where it was acknowledged before, or lies outside the scope. */
export async function acknowledgeNotice(scope: Scope, readingId: number, actor: string, db: Db): Promise<boolean> {
  return (await db.run(sql`
    UPDATE urgent_notice u SET acknowledged_at = now(), acknowledged_by = ${actor}
    FROM placement p WHERE u.reading_id = ${readingId} AND u.acknowledged_at IS NULL AND p.reading_id = u.reading_id AND p.current
      AND ${onPlacement(scope, 'p')}`)) === 1
}

/** Where an urgent reading may be, after a person has looked. */
export async function moveNotice(scope: Scope, readingId: number, circuits: NewNotice['circuits'], db: Db): Promise<void> {
  const stored = circuits.map((c) => ({ circuit_id: c.circuitId, circuit: c.circuit, probability: c.probability }))
  await db.run(sql`
    UPDATE urgent_notice u SET circuits = ${JSON.stringify(stored)}::jsonb FROM placement p
    WHERE u.reading_id = ${readingId} AND p.reading_id = u.reading_id AND p.current AND ${onPlacement(scope, 'p')}`)
}

/** Notices end with the readings of an undone import. */
export async function removeNotices(scope: Scope, importId: number, db: Db): Promise<void> {
  mustCoverEverything(scope)
  await db.run(sql`DELETE FROM urgent_notice u USING reading r WHERE r.id = u.reading_id AND r.import_id = ${importId}`)
}
