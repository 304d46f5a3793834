import { onCircuit, type Scope } from '../scope'
import { sql, type Sql } from './sql'

/** Lines number their structures alike, so that many bear one number. */
const STRUCTURES_PER_NAME = 4

/** Circuits and lines by any part of their name; splices and structures by how their label begins. At most `limit` of each, more of structures. */
export function searchQuestion(scope: Scope, text: string, limit: number): Sql {
  const escaped = text.toLowerCase().replace(/[\\%_]/g, '\\$&')
  const begins = `${escaped}%`
  const contains = `%${escaped}%`
  return sql`
    (SELECT 'circuit' AS kind, c.id, c.name AS label, concat_ws(' · ', c.line_name, c.voltage_kv || ' kV') AS detail, ARRAY[]::text[] AS circuits,
       (b.box[1] + b.box[3]) / 2 AS lon, (b.box[2] + b.box[4]) / 2 AS lat, to_jsonb(b.box) AS bbox
     FROM circuit c JOIN LATERAL (
       SELECT ARRAY[min(bbox[1]), min(bbox[2]), max(bbox[3]), max(bbox[4])] AS box FROM section WHERE circuit_id = c.id HAVING count(*) > 0) b ON TRUE
     WHERE (lower(c.name) LIKE ${contains} OR lower(c.line_name) LIKE ${contains}) AND ${onCircuit(scope, 'c.id')}
     ORDER BY lower(c.name) <> ${text.toLowerCase()}, c.name LIMIT ${limit})
    UNION ALL
    (SELECT 'splice', s.id, coalesce(s.label, 'found ' || s.id), concat_ws(' · ', c.name, st.class), ARRAY[c.name], s.lon, s.lat, NULL
     FROM splice s JOIN circuit c ON c.id = s.circuit_id JOIN splice_state st ON st.splice_id = s.id
     WHERE (lower(s.label) LIKE ${begins} OR s.label IS NULL AND 'found ' || s.id = ${text.toLowerCase()}) AND ${onCircuit(scope, 's.circuit_id')}
     ORDER BY length(s.label), s.label LIMIT ${limit})
    UNION ALL
    (SELECT 'structure', x.id, x.label, (SELECT string_agg(DISTINCT concat_ws(' ', c.name, c.line_name), ' · ') FROM section_structure ss
         JOIN section sec ON sec.id = ss.section_id JOIN circuit c ON c.id = sec.circuit_id WHERE ss.structure_id = x.id) AS detail,
       ARRAY(SELECT DISTINCT c.name FROM section_structure ss JOIN section sec ON sec.id = ss.section_id JOIN circuit c ON c.id = sec.circuit_id
         WHERE ss.structure_id = x.id AND ${onCircuit(scope, 'c.id')} ORDER BY c.name),
       x.lon, x.lat, NULL
     FROM structure x
     WHERE (lower(x.label) LIKE ${begins} OR ${text} = ANY(x.aliases)) AND EXISTS (
       SELECT FROM section_structure ss JOIN section sec ON sec.id = ss.section_id
       WHERE ss.structure_id = x.id AND ${onCircuit(scope, 'sec.circuit_id')})
     ORDER BY length(x.label), x.label, detail LIMIT ${STRUCTURES_PER_NAME * limit})`
}
