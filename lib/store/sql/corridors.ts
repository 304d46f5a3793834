import { onCircuit, type Scope } from '../scope'
import { sql, type Sql } from './sql'

/** Circuits with the line distance that their spans cover, as structures stand on it, by name. */
export const circuitLengths = (scope: Scope): Sql => sql`
  SELECT c.id, c.name, sum(coalesce(sp.length_m, sec.length_m)) AS length_m,
    jsonb_build_array(min(sec.bbox[1]), min(sec.bbox[2]), max(sec.bbox[3]), max(sec.bbox[4])) AS bbox
  FROM circuit c JOIN section sec ON sec.circuit_id = c.id
  LEFT JOIN LATERAL (SELECT max(end_m) - min(start_m) AS length_m FROM span WHERE section_id = sec.id) sp ON TRUE
  WHERE ${onCircuit(scope, 'c.id')} GROUP BY c.id ORDER BY c.name, c.id`
