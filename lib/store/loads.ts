import { copyRows } from './copy'
import { mustCoverEverything, type Scope } from './scope'
import { sql } from './sql/sql'
import type { Db, Tx } from './transaction'

export interface NewLoad { sectionId: number; takenAt: Date; currentA: number; quality: string | null }

/** Currents that are held for these sections and moments, as `sectionId ms` → A per phase. */
export async function heldLoads(scope: Scope, loads: readonly Pick<NewLoad, 'sectionId' | 'takenAt'>[], db: Db): Promise<Map<string, number>> {
  mustCoverEverything(scope)
  const rows = await db.rows<{ section_id: number; taken_at: Date; current_a: number }>(sql`
    SELECT l.section_id, l.taken_at, l.current_a
    FROM unnest(${loads.map((l) => l.sectionId)}::int[], ${loads.map((l) => l.takenAt)}::timestamptz[]) AS v (section_id, taken_at)
    JOIN section_load l ON l.section_id = v.section_id AND l.taken_at = v.taken_at`)
  return new Map(rows.map((row) => [loadKey(row.section_id, row.taken_at), row.current_a]))
}

export const loadKey = (sectionId: number, takenAt: Date): string => `${sectionId} ${takenAt.getTime()}`

export async function insertLoads(scope: Scope, importId: number, loads: readonly NewLoad[], tx: Tx): Promise<void> {
  mustCoverEverything(scope)
  if (loads.length === 0) return
  await copyRows(tx, 'section_load', ['section_id', 'taken_at', 'current_a', 'quality', 'import_id'],
    loads.map((l) => [l.sectionId, l.takenAt, l.currentA, l.quality, importId]))
}

/** Takes the loads of an import out again. Returns the circuits that had some. */
export async function removeLoads(scope: Scope, importId: number, db: Db): Promise<number[]> {
  mustCoverEverything(scope)
  const rows = await db.rows<{ circuit_id: number }>(sql`
    WITH gone AS (DELETE FROM section_load WHERE import_id = ${importId} RETURNING section_id)
    SELECT DISTINCT sec.circuit_id FROM gone JOIN section sec ON sec.id = gone.section_id`)
  return rows.map((row) => row.circuit_id)
}
