import { onCircuit, type Scope } from '../scope'
import { name, sql, type Sql } from './sql'

export const lineCircuits = (scope: Scope): Sql => sql`
  SELECT id, name, voltage_kv AS "voltageKv" FROM circuit WHERE ${onCircuit(scope, 'id')} ORDER BY id`

/** In order of circuit, section and place along it. */
export const lineSpans = (scope: Scope): Sql => sql`
  SELECT sp.id, sp.section_id AS "sectionId", sec.circuit_id AS "circuitId", sp.ord, back.label AS "structureBack",
    ahead.label AS "structureAhead", sp.start_m AS "startM", sp.end_m AS "endM", sec.lateral_offset_m AS "lateralOffsetM",
    sp.lon_lat AS "lonLat"
  FROM span sp
  JOIN section sec ON sec.id = sp.section_id
  LEFT JOIN structure back ON back.id = sp.structure_back_id
  LEFT JOIN structure ahead ON ahead.id = sp.structure_ahead_id
  WHERE ${onCircuit(scope, 'sec.circuit_id')}
  ORDER BY sec.circuit_id, sec.id, sp.ord`

export const lineStructures = (scope: Scope): Sql => sql`
  SELECT t.id, t.label, t.lon, t.lat, t.structure_type AS type FROM structure t
  WHERE EXISTS (
    SELECT FROM section_structure x JOIN section sec ON sec.id = x.section_id
    WHERE x.structure_id = t.id AND ${onCircuit(scope, 'sec.circuit_id')})
  ORDER BY t.id`

export const lineCrossings = (scope: Scope): Sql => sql`
  SELECT id, circuit_id AS "circuitId", line_distance_m AS "lineDistanceM", kind, name FROM crossing
  WHERE ${onCircuit(scope, 'circuit_id')} ORDER BY id`

const TABLES = ['circuit', 'section', 'span', 'structure', 'section_structure', 'crossing']

/**
 * Text that changes with every insert, update and delete in the tables of the network: most changes of the store are readings, and the
 * lines need not be read again for those.
 */
export const networkMark = (_scope: Scope): Sql => {
  const marks = TABLES.map((t) => `(SELECT count(*) || '-' || coalesce(sum(xmin::text::bigint), 0) FROM ${t})`)
  return sql`SELECT concat_ws('/', ${name(marks.join(', '))}) AS mark`
}
