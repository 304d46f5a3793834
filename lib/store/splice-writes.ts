import { copyRows } from './copy'
import { reserveIds } from './ids'
import { mustCoverEverything, onCircuit, type Scope } from './scope'
import { join, sql } from './sql/sql'
import type { Db, Tx } from './transaction'

export interface NewSplice {
  label: string | null
  circuitId: number
  sectionId: number
  spanId: number
  lineDistanceM: number
  structureBackId: number | null
  /** Ahead of structureBack, else of the section's start. */
  offsetM: number
  lon: number
  lat: number
  phase: string | null
  position: string | null
  circuitSide: string | null
  subconductor: string | null
  kind: string
  fittingType: string | null
  barrelOdMm: number | null
  barrelLengthMm: number | null
  installedOn: string | null
  batch: string | null
  removedOn: string | null
  foundBySurvey: boolean
}

const COLUMNS = ['id', 'label', 'circuit_id', 'section_id', 'span_id', 'line_distance_m', 'structure_back_id', 'offset_m', 'lon', 'lat', 'phase', 'position',
  'circuit_side', 'subconductor', 'kind', 'fitting_type', 'barrel_od_mm', 'barrel_length_mm', 'installed_on', 'batch', 'removed_on', 'found_by_survey',
  'import_id'] as const

/** New splices by COPY. Returns their ids in order. */
export async function insertSplices(scope: Scope, importId: number | null, splices: readonly NewSplice[], tx: Tx): Promise<number[]> {
  mustCoverEverything(scope)
  const ids = await reserveIds(tx, 'splice', splices.length)
  if (splices.length === 0) return ids
  await copyRows(tx, 'splice', COLUMNS, splices.map((s, i) => [
    ids[i], s.label, s.circuitId, s.sectionId, s.spanId, s.lineDistanceM, s.structureBackId, s.offsetM, s.lon, s.lat, s.phase, s.position,
    s.circuitSide, s.subconductor, s.kind, s.fittingType, s.barrelOdMm, s.barrelLengthMm, s.installedOn, s.batch, s.removedOn, s.foundBySurvey, importId,
  ]))
  return ids
}

/**
 * Of these splices, removes those that a survey found and that no reading supports any longer. What a file of splices has
 * confirmed, what another splice succeeds, what the register of limits or the log of calls names, and what other readings stand on stays. Returns what was removed, with the class it had.
 */
export async function removeUnsupportedSplices(
  scope: Scope, spliceIds: readonly number[], db: Db,
): Promise<{ id: number; circuit_id: number; splice: string; class: string | null }[]> {
  const gone = await db.rows<{ id: number; circuit_id: number; splice: string; class: string | null }>(sql`
    SELECT s.id, s.circuit_id, coalesce(s.label, 'found ' || s.id) AS splice, st.class
    FROM splice s LEFT JOIN splice_state st ON st.splice_id = s.id
    WHERE s.id = ANY(${spliceIds}::int[]) AND s.found_by_survey AND ${onCircuit(scope, 's.circuit_id')}
      AND NOT EXISTS (SELECT FROM placement p WHERE p.splice_id = s.id AND p.current)
      AND NOT EXISTS (SELECT FROM splice x WHERE x.successor_of_id = s.id)
      AND NOT EXISTS (SELECT FROM current_limit l WHERE l.splice_id = s.id) AND NOT EXISTS (SELECT FROM call_entry e WHERE e.splice_id = s.id)
    ORDER BY s.id`)
  if (gone.length === 0) return gone
  const ids = sql`(${join(gone.map((row) => sql`${row.id}::int`))})`
  await db.run(sql`UPDATE placement SET splice_id = NULL WHERE splice_id IN ${ids}`)
  await db.run(sql`DELETE FROM splice WHERE id IN ${ids}`)
  return gone
}

/** Lets go of these splices the placements that ended, as those of undone readings have: they keep their place, and hold no splice back. */
export async function freeEndedPlacements(scope: Scope, spliceIds: readonly number[], db: Db): Promise<void> {
  mustCoverEverything(scope)
  await db.run(sql`UPDATE placement SET splice_id = NULL WHERE splice_id = ANY(${spliceIds}::int[]) AND NOT current`)
}

/** Structure at the back of each of these spans. */
export async function structuresAtBack(scope: Scope, spanIds: readonly number[], db: Db): Promise<Map<number, number | null>> {
  const rows = await db.rows<{ id: number; structure_back_id: number | null }>(sql`
    SELECT sp.id, sp.structure_back_id FROM span sp JOIN section sec ON sec.id = sp.section_id
    WHERE sp.id = ANY(${spanIds}::int[]) AND ${onCircuit(scope, 'sec.circuit_id')}`)
  return new Map(rows.map((row) => [row.id, row.structure_back_id]))
}

/** A splice as a file of splices is compared with it. */
export interface SpliceRow {
  id: number; label: string | null; circuit_id: number; circuit: string; section_id: number; line_distance_m: number; phase: string | null
  position: string | null; circuit_side: string | null; subconductor: string | null; kind: string; fitting_type: string | null; barrel_od_mm: number | null
  barrel_length_mm: number | null; installed_on: string | null; batch: string | null; removed_on: string | null; successor_of_id: number | null
  found_by_survey: boolean
}

export async function spliceRows(scope: Scope, db: Db): Promise<SpliceRow[]> {
  return db.rows<SpliceRow>(sql`
    SELECT s.id, s.label, s.circuit_id, c.name AS circuit, s.section_id, s.line_distance_m, s.phase, s.position, s.circuit_side, s.subconductor, s.kind,
      s.fitting_type, s.barrel_od_mm, s.barrel_length_mm, s.installed_on, s.batch, s.removed_on, s.successor_of_id, s.found_by_survey
    FROM splice s JOIN circuit c ON c.id = s.circuit_id WHERE ${onCircuit(scope, 's.circuit_id')} ORDER BY s.id`)
}
