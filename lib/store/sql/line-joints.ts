import { onCircuit, type Scope } from '../scope'
import { lastLoadOf, plannedOf } from './last-load'
import { iso } from './iso'
import { spliceInPlace } from './splice-summary'
import { sql, type Sql } from './sql'

/** Good to a degree on a line of 100 km; a closed loop counts as running north. */
const AZIMUTH = sql`mod((360 + degrees(atan2(
  (sec.lon_lat[array_length(sec.lon_lat, 1) - 1] - sec.lon_lat[1]) * cos(radians(sec.lon_lat[2])), sec.lon_lat[array_length(sec.lon_lat, 1)] - sec.lon_lat[2])))::numeric, 360)::float8`

/** Sections with their last known load and the day before it, and what is planned for them. */
export const sectionsOfLine = (scope: Scope, circuitId: number | null): Sql => sql`
  SELECT sec.id, sec.circuit_id, c.name AS circuit, c.line_name, c.voltage_kv, sec.name, sec.from_name AS "from", sec.to_name AS "to",
    sec.conductor_code AS conductor, sec.subconductors, sec.rating_a, sec.rating_emergency_a, sec.max_operating_c, sec.elevation_m, sec.length_m,
    ${lastLoadOf('sec.id')} AS last_load, ${plannedOf('expected-peak')} AS expected_peak, ${plannedOf('post-contingency')} AS post_contingency, coalesce(day.loads, '[]') AS day_loads,
    coalesce(own.splice_count, 0) AS splice_count, coalesce(own.barrels, '[]') AS barrels_od_mm, coalesce(own.unknown, 0) AS barrels_unknown,
    (sec.bbox[1] + sec.bbox[3]) / 2 AS lon, (sec.bbox[2] + sec.bbox[4]) / 2 AS lat,
    ${AZIMUTH} AS azimuth_deg
  FROM section sec JOIN circuit c ON c.id = sec.circuit_id
  LEFT JOIN LATERAL (
    SELECT jsonb_agg(jsonb_build_object('taken_at', ${iso('l.taken_at')}, 'current_a', l.current_a) ORDER BY l.taken_at) AS loads
    FROM section_load l
    WHERE l.section_id = sec.id AND l.flow = 'carried' AND l.quality IS DISTINCT FROM 'suspect' AND l.taken_at > (
      SELECT max(x.taken_at) FROM section_load x WHERE x.section_id = sec.id AND x.flow = 'carried' AND x.quality IS DISTINCT FROM 'suspect') - interval '24 hours'
  ) day ON TRUE
  LEFT JOIN LATERAL (
    SELECT sum(n)::int AS splice_count, jsonb_agg(barrel_od_mm ORDER BY barrel_od_mm) FILTER (WHERE barrel_od_mm IS NOT NULL) AS barrels,
      (sum(n) FILTER (WHERE barrel_od_mm IS NULL))::int AS unknown
    FROM (SELECT s.barrel_od_mm, count(*) AS n FROM splice s WHERE s.section_id = sec.id AND s.removed_on IS NULL GROUP BY s.barrel_od_mm) sizes
  ) own ON TRUE
  WHERE ${onCircuit(scope, 'sec.circuit_id')} AND (${circuitId}::int IS NULL OR sec.circuit_id = ${circuitId}::int)
  ORDER BY c.name, sec.name <> 'main', sec.name`

export const structuresOfLine = (scope: Scope, circuitId: number): Sql => sql`
  SELECT ss.section_id, x.label AS structure, ss.line_distance_m
  FROM section_structure ss JOIN structure x ON x.id = ss.structure_id JOIN section sec ON sec.id = ss.section_id
  WHERE sec.circuit_id = ${circuitId} AND ${onCircuit(scope, 'sec.circuit_id')} ORDER BY ss.section_id, ss.ord`

/** Splices in service with what of their assessment tells a ratio; the whole assessments of a circuit would be megabytes. */
export const jointsOfLine = (scope: Scope, circuitId: number): Sql => sql`
  SELECT s.id, coalesce(s.label, 'found ' || s.id) AS splice, s.section_id, s.line_distance_m, back.label AS structure_back, ahead.label AS structure_ahead,
    s.offset_m, s.phase, s.position, s.circuit_side, s.subconductor, s.kind, s.fitting_type, s.barrel_od_mm,
    coalesce(st.class, 'unknown') AS class, coalesce(st.held, FALSE) AS held, st.found_ratio, ${iso('st.found_at')} AS found_at,
    CASE WHEN a.id IS NOT NULL THEN json_build_object('class', a.class, 'sides', a.result::json->'sides', 'fusion', a.result::json->'fusion', 'raised_by', a.result::json->'raisedBy',
      'visits', CASE WHEN st.held THEN a.result::json->'visits' END, 'limit_k', a.result::json->'limit'->'k') END AS read,
    CASE WHEN st.class IN ('urgent', 'critical') THEN json_build_object('actions', coalesce(a.result::json->'nextActions', '[]'),
      'raised_at', ${iso("CASE st.class WHEN 'critical' THEN st.critical_since ELSE st.urgent_since END")}, 'last_reading_at', ${iso('st.last_reading_at')},
      'next_reading_due_ms', a.result::json->'nextReadingDueMs') END AS response
  FROM ${spliceInPlace}
  LEFT JOIN splice_state st ON st.splice_id = s.id
  LEFT JOIN assessment a ON a.id = st.assessment_id
  WHERE s.circuit_id = ${circuitId} AND s.removed_on IS NULL AND ${onCircuit(scope, 's.circuit_id')}
  ORDER BY sec.name <> 'main', sec.name, s.line_distance_m, s.id`
