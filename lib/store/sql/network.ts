import { sql, type Sql } from './sql'

export const networkSectionsQuestion = (where: Sql): Sql => sql`
  SELECT sec.id, sec.circuit_id, c.name AS circuit, sec.name, c.voltage_kv, sec.lateral_offset_m, sec.length_m, sec.lon_lat
  FROM section sec JOIN circuit c ON c.id = sec.circuit_id WHERE ${where} ORDER BY sec.id`

export const networkSpansQuestion = (where: Sql): Sql => sql`
  SELECT sp.id, sp.section_id, sec.circuit_id, back.label AS back, ahead.label AS ahead, sp.start_m, sp.end_m, sp.lon_lat
  FROM span sp JOIN section sec ON sec.id = sp.section_id
  LEFT JOIN structure back ON back.id = sp.structure_back_id
  LEFT JOIN structure ahead ON ahead.id = sp.structure_ahead_id
  WHERE ${where} ORDER BY sp.section_id, sp.ord`

export const networkStructuresQuestion = (where: Sql): Sql => sql`
  SELECT ss.section_id, x.label, x.aliases, ss.line_distance_m
  FROM section_structure ss JOIN structure x ON x.id = ss.structure_id JOIN section sec ON sec.id = ss.section_id
  WHERE ${where} ORDER BY ss.section_id, ss.ord`

/** A phasing row names two structures; it counts on each section of its circuit that has both. */
export const phasingQuestion = (where: Sql): Sql => sql`
  SELECT ph.circuit_id, sec.id AS section_id, ph.position, ph.phase,
    least(a.line_distance_m, b.line_distance_m) AS start_m, greatest(a.line_distance_m, b.line_distance_m) AS end_m
  FROM phasing ph
  JOIN section sec ON sec.circuit_id = ph.circuit_id
  JOIN (section_structure a JOIN structure xa ON xa.id = a.structure_id) ON a.section_id = sec.id AND xa.label = ph.structure_from
  JOIN (section_structure b JOIN structure xb ON xb.id = b.structure_id) ON b.section_id = sec.id AND xb.label = ph.structure_to
  WHERE ${where}`

export const knownSplicesQuestion = (where: Sql): Sql => sql`
  SELECT s.id, s.label, s.circuit_id, s.section_id, s.span_id, s.line_distance_m, s.phase, s.position, s.circuit_side, s.subconductor
  FROM splice s WHERE s.removed_on IS NULL AND ${where} ORDER BY s.section_id, s.line_distance_m, s.id`
