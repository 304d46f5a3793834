import { copyRows } from './copy'
import { reserveIds } from './ids'
import { mustCoverEverything, type Scope } from './scope'
import { sql } from './sql/sql'
import type { Db, Tx } from './transaction'

export interface NewStructure { label: string; lon: number; lat: number; structureType: string | null; aliases: readonly string[] }

/** New structures by COPY. Returns their ids in order. */
export async function insertStructures(scope: Scope, importId: number, structures: readonly NewStructure[], tx: Tx): Promise<number[]> {
  mustCoverEverything(scope)
  const ids = await reserveIds(tx, 'structure', structures.length)
  if (structures.length === 0) return ids
  await copyRows(tx, 'structure', ['id', 'label', 'lon', 'lat', 'structure_type', 'aliases', 'import_id'],
    structures.map((s, i) => [ids[i], s.label, s.lon, s.lat, s.structureType, s.aliases, importId]))
  return ids
}

export interface Standing { structureId: number; lineDistanceM: number; declaredLineDistanceM: number | null }

/** Which structures stand on these sections, each list in order along its section; it replaces what stood there. */
export async function replaceStandings(scope: Scope, bySection: ReadonlyMap<number, readonly Standing[]>, tx: Tx): Promise<void> {
  mustCoverEverything(scope)
  await tx.run(sql`DELETE FROM section_structure WHERE section_id = ANY(${[...bySection.keys()]}::int[])`)
  await copyRows(tx, 'section_structure', ['section_id', 'structure_id', 'ord', 'line_distance_m', 'declared_line_distance_m'],
    [...bySection].flatMap(([sectionId, standings]) =>
      standings.map((s, ord) => [sectionId, s.structureId, ord, s.lineDistanceM, s.declaredLineDistanceM])))
}

export interface NewSpan {
  sectionId: number; ord: number; structureBackId: number | null; structureAheadId: number | null; startM: number; endM: number; lonLat: Float64Array
}

/** Spans as they are from now on: some keep their number and only move in order, the others are new. Returns the new ones' ids. */
export async function writeSpans(
  scope: Scope, sectionIds: readonly number[], kept: readonly { id: number; ord: number }[], added: readonly NewSpan[], tx: Tx,
): Promise<number[]> {
  mustCoverEverything(scope)
  await tx.run(sql`UPDATE span SET ord = -1 - ord WHERE section_id = ANY(${sectionIds}::int[])`)
  await tx.run(sql`
    UPDATE span SET ord = v.ord FROM unnest(${kept.map((s) => s.id)}::int[], ${kept.map((s) => s.ord)}::int[]) AS v (id, ord) WHERE span.id = v.id`)
  const ids = await reserveIds(tx, 'span', added.length)
  await copyRows(tx, 'span', ['id', 'section_id', 'ord', 'structure_back_id', 'structure_ahead_id', 'start_m', 'end_m', 'lon_lat'],
    added.map((s, i) => [ids[i], s.sectionId, s.ord, s.structureBackId, s.structureAheadId, s.startM, s.endM, Array.from(s.lonLat)]))
  return ids
}

/** Spans that are no more: what hung on them was moved before. */
export async function removeSpans(scope: Scope, ids: readonly number[], db: Db): Promise<void> {
  mustCoverEverything(scope)
  if (ids.length > 0) await db.run(sql`DELETE FROM span WHERE id = ANY(${ids}::int[])`)
}

export interface MovedSplice {
  id: number; spanId: number; lineDistanceM: number; shiftM: number; structureBackId: number | null; offsetM: number; lon: number; lat: number
}

/** Splices at their place on the new geometry; readings placed on them go along. */
export async function moveSplices(scope: Scope, moved: readonly MovedSplice[], db: Db): Promise<void> {
  mustCoverEverything(scope)
  if (moved.length === 0) return
  const column = <K extends keyof MovedSplice>(key: K) => moved.map((m) => m[key])
  await db.run(sql`
    UPDATE splice SET span_id = v.span_id, line_distance_m = v.line_distance_m, structure_back_id = v.structure_back_id, offset_m = v.offset_m,
      lon = v.lon, lat = v.lat
    FROM unnest(${column('id')}::int[], ${column('spanId')}::int[], ${column('lineDistanceM')}::float8[], ${column('structureBackId')}::int[],
      ${column('offsetM')}::float8[], ${column('lon')}::float8[], ${column('lat')}::float8[])
      AS v (id, span_id, line_distance_m, structure_back_id, offset_m, lon, lat)
    WHERE splice.id = v.id`)
  await db.run(sql`
    UPDATE placement p SET span_id = v.span_id, line_distance_m = greatest(p.line_distance_m + v.shift_m, 0)
    FROM unnest(${column('id')}::int[], ${column('spanId')}::int[], ${column('shiftM')}::float8[]) AS v (id, span_id, shift_m)
    WHERE p.splice_id = v.id AND p.current`)
}

/** Imports of readings and patrols that have seen spans of these sections. */
export async function importsCovering(scope: Scope, sectionIds: readonly number[], db: Db): Promise<number[]> {
  mustCoverEverything(scope)
  const rows = await db.rows<{ import_id: number }>(sql`
    SELECT v.import_id FROM span_coverage v JOIN span sp ON sp.id = v.span_id WHERE sp.section_id = ANY(${sectionIds}::int[])
    UNION SELECT import_id FROM survey_extent WHERE section_id = ANY(${sectionIds}::int[])`)
  return rows.map((row) => row.import_id)
}

/** Patrols between named structures follow them on the new geometry; those from an end to an end follow the ends. */
export async function moveExtents(scope: Scope, sectionIds: readonly number[], db: Db): Promise<void> {
  mustCoverEverything(scope)
  await db.run(sql`
    UPDATE survey_extent x SET start_m = least(f.m, t.m), end_m = greatest(f.m, t.m)
    FROM survey_extent y
    JOIN section sec ON sec.id = y.section_id
    CROSS JOIN LATERAL (SELECT CASE WHEN y.structure_from IS NULL THEN 0 ELSE (SELECT ss.line_distance_m FROM section_structure ss
      JOIN structure s ON s.id = ss.structure_id WHERE ss.section_id = sec.id AND s.label = y.structure_from LIMIT 1) END AS m) f
    CROSS JOIN LATERAL (SELECT CASE WHEN y.structure_to IS NULL THEN sec.length_m ELSE (SELECT ss.line_distance_m FROM section_structure ss
      JOIN structure s ON s.id = ss.structure_id WHERE ss.section_id = sec.id AND s.label = y.structure_to LIMIT 1) END AS m) t
    WHERE x.id = y.id AND x.section_id = ANY(${sectionIds}::int[]) AND f.m IS NOT NULL AND t.m IS NOT NULL`)
}
