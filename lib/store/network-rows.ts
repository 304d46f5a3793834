import { mustCoverEverything, type Scope } from './scope'
import { sql } from './sql/sql'
import type { Db } from './transaction'

/** The network as imports compare it with a file: rows as they stand, every circuit. */
export interface CircuitRow {
  id: number; name: string; line_name: string | null; from_name: string | null; to_name: string | null; voltage_kv: number | null
  region: string | null; radial: boolean | null; mw: number | null
}

export interface SectionRow {
  id: number; circuit_id: number; circuit: string; name: string; from_name: string | null; to_name: string | null; conductor_code: string | null
  subconductors: number; rating_a: number | null; rating_emergency_a: number | null; max_operating_c: number | null
  elevation_m: number | null; lateral_offset_m: number | null; length_m: number; lon_lat: number[]
}

export interface StructureRow { id: number; label: string; lon: number; lat: number; structure_type: string | null; aliases: string[] }

/** A structure's place on one section. */
export interface StandingRow {
  section_id: number; structure_id: number; label: string; aliases: string[]; lon: number; lat: number
  line_distance_m: number; declared_line_distance_m: number | null
}

export async function circuitRows(scope: Scope, db: Db): Promise<CircuitRow[]> {
  mustCoverEverything(scope)
  return db.rows<CircuitRow>(sql`SELECT id, name, line_name, from_name, to_name, voltage_kv, region, radial, mw FROM circuit ORDER BY id`)
}

export async function sectionRows(scope: Scope, db: Db): Promise<SectionRow[]> {
  mustCoverEverything(scope)
  return db.rows<SectionRow>(sql`
    SELECT s.id, s.circuit_id, c.name AS circuit, s.name, s.from_name, s.to_name, s.conductor_code, s.subconductors, s.rating_a, s.rating_emergency_a,
      s.max_operating_c, s.elevation_m, s.lateral_offset_m, s.length_m, s.lon_lat
    FROM section s JOIN circuit c ON c.id = s.circuit_id ORDER BY s.id`)
}

export async function structureRows(scope: Scope, db: Db): Promise<StructureRow[]> {
  mustCoverEverything(scope)
  return db.rows<StructureRow>(sql`SELECT id, label, lon, lat, structure_type, aliases FROM structure ORDER BY id`)
}

/** In order along each section. */
export async function standingRows(scope: Scope, db: Db): Promise<StandingRow[]> {
  mustCoverEverything(scope)
  return db.rows<StandingRow>(sql`
    SELECT ss.section_id, ss.structure_id, x.label, x.aliases, x.lon, x.lat, ss.line_distance_m, ss.declared_line_distance_m
    FROM section_structure ss JOIN structure x ON x.id = ss.structure_id ORDER BY ss.section_id, ss.ord`)
}

export interface SpanRow {
  id: number; section_id: number; ord: number; structure_back_id: number | null; structure_ahead_id: number | null; start_m: number; end_m: number; lon_lat: number[]
}

/** In order along each of these sections. */
export async function spanRows(scope: Scope, sectionIds: readonly number[], db: Db): Promise<SpanRow[]> {
  mustCoverEverything(scope)
  return db.rows<SpanRow>(sql`
    SELECT id, section_id, ord, structure_back_id, structure_ahead_id, start_m, end_m, lon_lat FROM span
    WHERE section_id = ANY(${sectionIds}::int[]) ORDER BY section_id, ord`)
}

/** Where a splice hangs: structure and offset are what survives new geometry. */
export interface AnchorRow {
  id: number; splice: string; section_id: number; span_id: number; line_distance_m: number; structure_back_id: number | null; offset_m: number
}

export async function anchorRows(scope: Scope, sectionIds: readonly number[], db: Db): Promise<AnchorRow[]> {
  mustCoverEverything(scope)
  return db.rows<AnchorRow>(sql`
    SELECT id, coalesce(label, 'found ' || id) AS splice, section_id, span_id, line_distance_m, structure_back_id, offset_m
    FROM splice WHERE section_id = ANY(${sectionIds}::int[]) ORDER BY id`)
}

export interface PhasingRow { id: number; circuit_id: number; structure_from: string; structure_to: string; position: string; phase: string }
export interface CrossingRow { id: number; circuit_id: number; line_distance_m: number; kind: string; name: string | null }
export interface ExtentRow { survey_id: number; section_id: number; start_m: number; end_m: number; surveyed_on: string; method: string }

export async function phasingRows(scope: Scope, db: Db): Promise<PhasingRow[]> {
  mustCoverEverything(scope)
  return db.rows<PhasingRow>(sql`SELECT id, circuit_id, structure_from, structure_to, position, phase FROM phasing`)
}

export async function crossingRows(scope: Scope, db: Db): Promise<CrossingRow[]> {
  mustCoverEverything(scope)
  return db.rows<CrossingRow>(sql`SELECT id, circuit_id, line_distance_m, kind, name FROM crossing`)
}

export async function extentRows(scope: Scope, db: Db): Promise<ExtentRow[]> {
  mustCoverEverything(scope)
  return db.rows<ExtentRow>(sql`SELECT survey_id, section_id, start_m, end_m, surveyed_on, method FROM survey_extent`)
}
