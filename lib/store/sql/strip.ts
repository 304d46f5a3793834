import type { SpliceFilter } from '@/lib/contract/filter'
import { onCircuit, type Scope } from '../scope'
import { iso } from './iso'
import { spliceCondition } from './splice-filter'
import { spliceInPlace } from './splice-summary'
import { sql, type Sql } from './sql'

/** Sections with the stretch of line distance that their spans cover, the main one first. */
export const stripSections = (scope: Scope, circuitId: number): Sql => sql`
  SELECT sec.id, sec.name, sec.from_name AS "from", sec.to_name AS "to",
    coalesce((SELECT min(sp.start_m) FROM span sp WHERE sp.section_id = sec.id), 0) AS start_m,
    coalesce((SELECT max(sp.end_m) FROM span sp WHERE sp.section_id = sec.id), sec.length_m) AS end_m
  FROM section sec WHERE sec.circuit_id = ${circuitId} AND ${onCircuit(scope, 'sec.circuit_id')}
  ORDER BY sec.name <> 'main', sec.name`

export const spanCourses = (scope: Scope, circuitId: number): Sql => sql`
  SELECT sp.id, sp.section_id, sp.lon_lat FROM span sp JOIN section sec ON sec.id = sp.section_id
  WHERE sec.circuit_id = ${circuitId} AND ${onCircuit(scope, 'sec.circuit_id')}`

/** In service, those too that nobody has assessed yet, and those that the filter does not let through. */
export const stripSplices = (scope: Scope, circuitId: number, filter: SpliceFilter): Sql => sql`
  SELECT s.id, coalesce(s.label, 'found ' || s.id) AS splice, s.section_id, s.phase, s.position, s.circuit_side, s.subconductor, s.kind,
    back.label AS structure_back, ahead.label AS structure_ahead, s.offset_m, s.line_distance_m, s.lon, s.lat,
    coalesce(st.class, 'unknown') AS class, coalesce(st.held, FALSE) AS held, coalesce(st.confidence, 'low') AS confidence, st.ratio,
    coalesce(st.flags, '{}') AS flags, ${iso('st.measure_by')} AS measure_by,
    coalesce(${spliceCondition(scope, filter)}, FALSE) AS in_filter
  FROM ${spliceInPlace} LEFT JOIN splice_state st ON st.splice_id = s.id
  WHERE s.circuit_id = ${circuitId} AND s.removed_on IS NULL AND ${onCircuit(scope, 's.circuit_id')}
  ORDER BY sec.name <> 'main', sec.name, s.line_distance_m, s.id`

/** Structures that this circuit has in common with others, circuit by circuit; of every circuit where none is given. */
export const structuresInCommon = (scope: Scope, circuitId?: number): Sql => sql`
  SELECT sec.circuit_id AS "circuitId", c.id AS "besideCircuitId", c.name AS circuit, c.line_name, ours.section_id AS "sectionId",
    ours.line_distance_m AS "lineDistanceM", theirs.section_id AS "besideSectionId", theirs.line_distance_m AS "besideLineDistanceM"
  FROM section sec
  JOIN section_structure ours ON ours.section_id = sec.id
  JOIN section_structure theirs ON theirs.structure_id = ours.structure_id
  JOIN section other ON other.id = theirs.section_id
  JOIN circuit c ON c.id = other.circuit_id
  WHERE ${circuitId === undefined ? sql`TRUE` : sql`sec.circuit_id = ${circuitId}`} AND other.circuit_id <> sec.circuit_id
    AND ${onCircuit(scope, 'sec.circuit_id')} AND ${onCircuit(scope, 'c.id')}
  ORDER BY c.name, c.id, ours.section_id, ours.ord`

export const stripCrossings = (scope: Scope, circuitId: number): Sql => sql`
  SELECT id, kind, name, line_distance_m FROM crossing
  WHERE circuit_id = ${circuitId} AND ${onCircuit(scope, 'circuit_id')} ORDER BY line_distance_m, id`
