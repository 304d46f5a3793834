import { copyRows } from './copy'
import { mustCoverEverything, type Scope } from './scope'
import { name, sql } from './sql/sql'
import type { Db, Tx } from './transaction'

/** Tables whose rows an import may make or change, each with a numbered key. */
export type ChangedTable = 'circuit' | 'section' | 'structure' | 'splice' | 'phasing' | 'crossing' | 'survey_extent'
/** The structures of a section change together; their row is the section's. */
export type ChangedEntity = ChangedTable | 'section_structure'

export interface ImportChange { entity: ChangedEntity; entityId: number; before: unknown }

/** What an import made and changed, so that undo can put it back. One row counts once: as it was before the import. */
export class ChangeLog {
  private readonly changes = new Map<string, ImportChange>()

  created(entity: ChangedEntity, entityId: number): void {
    this.keep({ entity, entityId, before: null })
  }

  /** Notes the row as it is now, before it is changed. */
  async changing(db: Db, entity: ChangedTable, entityId: number): Promise<void> {
    if (this.changes.has(`${entity} ${entityId}`)) return
    const row = await db.row<{ before: unknown }>(sql`SELECT to_jsonb(t) AS before FROM ${name(entity)} t WHERE id = ${entityId}`)
    this.keep({ entity, entityId, before: row?.before ?? null })
  }

  /** Notes which structures stand on a section now. */
  async changingStructures(db: Db, sectionId: number): Promise<void> {
    if (this.changes.has(`section_structure ${sectionId}`)) return
    const row = await db.row<{ before: unknown }>(sql`
      SELECT coalesce(jsonb_agg(to_jsonb(t) ORDER BY ord), '[]') AS before FROM section_structure t WHERE section_id = ${sectionId}`)
    this.keep({ entity: 'section_structure', entityId: sectionId, before: row?.before ?? [] })
  }

  /** Takes over what another log noted after this one. */
  join(other: ChangeLog): void {
    for (const change of other.changes.values()) this.keep(change)
  }

  async write(scope: Scope, importId: number, tx: Tx): Promise<void> {
    mustCoverEverything(scope)
    const rows = [...this.changes.values()].map((c) => [importId, c.entity, c.entityId, c.before === null ? null : { json: c.before }])
    if (rows.length > 0) await copyRows(tx, 'import_change', ['import_id', 'entity', 'entity_id', 'before'], rows)
  }

  private keep(change: ImportChange): void {
    const key = `${change.entity} ${change.entityId}`
    if (!this.changes.has(key)) this.changes.set(key, change)
  }
}

/** Everything an import made or changed, the last first. */
export async function changesOf(scope: Scope, importId: number, db: Db): Promise<ImportChange[]> {
  mustCoverEverything(scope)
  return db.rows<ImportChange>(sql`
    SELECT entity, entity_id AS "entityId", before FROM import_change WHERE import_id = ${importId} ORDER BY id DESC`)
}

/** Later imports, not undone, that changed the same rows: they must be undone first. */
export async function laterChanges(scope: Scope, importId: number, db: Db): Promise<{ import_id: number; file_name: string }[]> {
  mustCoverEverything(scope)
  return db.rows<{ import_id: number; file_name: string }>(sql`
    SELECT DISTINCT i.id AS import_id, i.file_name
    FROM import_change mine
    JOIN import_change other ON other.entity_id = mine.entity_id AND other.import_id > mine.import_id
      AND (other.entity = mine.entity OR mine.entity = 'section' AND mine.before IS NULL AND other.entity = 'section_structure')
    JOIN import i ON i.id = other.import_id AND i.state = 'done'
    WHERE mine.import_id = ${importId} ORDER BY i.id`)
}

const COLUMNS: Record<ChangedTable, string> = {
  circuit: 'name, line_name, from_name, to_name, voltage_kv, region, radial, mw, import_id',
  section: 'circuit_id, name, from_name, to_name, conductor_code, subconductors, rating_a, rating_emergency_a, max_operating_c, elevation_m, lateral_offset_m, '
    + 'length_m, declared_length_m, lon_lat, import_id',
  structure: 'label, lon, lat, structure_type, aliases, import_id',
  splice: 'label, circuit_id, section_id, span_id, line_distance_m, structure_back_id, offset_m, lon, lat, phase, position, circuit_side, subconductor, kind, '
    + 'fitting_type, barrel_od_mm, barrel_length_mm, installed_on, batch, removed_on, successor_of_id, found_by_survey, import_id',
  phasing: 'circuit_id, structure_from, structure_to, position, phase, import_id',
  crossing: 'circuit_id, line_distance_m, kind, name, import_id',
  survey_extent: 'survey_id, circuit_id, section_id, structure_from, structure_to, start_m, end_m, surveyed_on, method, result, line_current_a, ambient_c, '
    + 'wind_m_s, import_id',
}

/** Puts a row back as it was. */
export async function restoreRow(scope: Scope, table: ChangedTable, id: number, before: unknown, db: Db): Promise<void> {
  mustCoverEverything(scope)
  const columns = name(COLUMNS[table])
  await db.run(sql`
    UPDATE ${name(table)} SET (${columns}) = (SELECT ${columns} FROM jsonb_populate_record(NULL::${name(table)}, ${JSON.stringify(before)}::jsonb))
    WHERE id = ${id}`)
}

/** Removes rows that an import made. */
export async function removeRows(scope: Scope, table: ChangedTable, ids: readonly number[], db: Db): Promise<void> {
  mustCoverEverything(scope)
  if (ids.length > 0) await db.run(sql`DELETE FROM ${name(table)} WHERE id = ANY(${ids}::int[])`)
}

/** Puts the list of structures of a section back as it was. */
export async function restoreStandings(scope: Scope, sectionId: number, before: unknown, db: Db): Promise<void> {
  mustCoverEverything(scope)
  await db.run(sql`DELETE FROM section_structure WHERE section_id = ${sectionId}`)
  await db.run(sql`
    INSERT INTO section_structure (section_id, structure_id, ord, line_distance_m, declared_line_distance_m)
    SELECT section_id, structure_id, ord, line_distance_m, declared_line_distance_m
    FROM jsonb_populate_recordset(NULL::section_structure, ${JSON.stringify(before)}::jsonb)`)
}
