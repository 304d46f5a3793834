import { onCircuit, type Scope } from '../scope'
import { sql, type Sql } from './sql'

/** Of a class that has a response time of its own, and of a look that nobody has to repeat: a day that no calendar reaches. */
const NEVER_DAY = 2_147_483_647

/**
 * Every splice in service with its shown class, a column a fact, packed by the server into one byte string each: a million rows arrive
 * in a few seconds and never become a million objects. All columns are in the same row order, since one pass over one stream of rows
 * makes them; numbers are big-endian. Joins nothing but the state, so that the server can share the work out.
 */
export const splicePoints = (scope: Scope): Sql => sql`
  WITH phase AS MATERIALIZED (
    SELECT array_agg(phase) AS list FROM (SELECT DISTINCT coalesce(phase, '') AS phase FROM splice) d
  )
  SELECT
    (SELECT list FROM phase) AS phases,
    string_agg(int4send(s.id), '') AS id,
    string_agg(float8send(s.lon), '') AS lon,
    string_agg(float8send(s.lat), '') AS lat,
    string_agg(substring(int4send(
      array_position(ARRAY['sound', 'watch', 'degraded', 'urgent', 'critical', 'unknown'], st.class) - 1) FROM 4), '') AS class_no,
    string_agg(int4send(CASE WHEN st.class NOT IN ('sound', 'watch') THEN ${NEVER_DAY}::int
      WHEN st.measure_by IS NULL THEN CASE WHEN 'stale' = ANY(st.flags) THEN 0 ELSE ${NEVER_DAY}::int END
      ELSE floor(extract(epoch FROM st.measure_by) / 86400)::int END), '') AS renew_by_day,
    string_agg(int4send(s.circuit_id), '') AS circuit_id,
    string_agg(int4send(array_position((SELECT list FROM phase), coalesce(s.phase, '')) - 1), '') AS phase_no,
    string_agg(int4send(s.span_id), '') AS span_id,
    string_agg(convert_to(coalesce(s.label, 'found ' || s.id), 'UTF8'), '\\x00'::bytea) AS names
  FROM splice s JOIN splice_state st ON st.splice_id = s.id
  WHERE s.removed_on IS NULL AND ${onCircuit(scope, 's.circuit_id')}`

/** Bearing of every span from end to end, 0 … 179 degrees: a line has no front. Packed as above. */
export const spanAxes = (scope: Scope): Sql => sql`
  SELECT string_agg(int4send(sp.id), '') AS span_id,
    string_agg(substring(int4send(mod(round(degrees(atan2(
      (sp.lon_lat[cardinality(sp.lon_lat) - 1] - sp.lon_lat[1]) * cosd(sp.lon_lat[2]),
      sp.lon_lat[cardinality(sp.lon_lat)] - sp.lon_lat[2])))::int + 360, 180)) FROM 4), '') AS axis_deg
  FROM span sp JOIN section sec ON sec.id = sp.section_id
  WHERE ${onCircuit(scope, 'sec.circuit_id')}`

/** Spans whose two ends, to about a metre, are also those of another circuit's span, whichever way it runs. In order of id. */
export const sharedSpans = (scope: Scope): Sql => sql`
  WITH ends AS (
    SELECT sp.id, sec.circuit_id, sec.lateral_offset_m,
      ARRAY[sp.lon_lat[1], sp.lon_lat[2], sp.lon_lat[cardinality(sp.lon_lat) - 1], sp.lon_lat[cardinality(sp.lon_lat)]] AS lon_lat
    FROM span sp JOIN section sec ON sec.id = sp.section_id
    WHERE ${onCircuit(scope, 'sec.circuit_id')}
  ), rounded AS (
    SELECT *, floor(lon_lat[1] / 1e-5 + 0.5) || ',' || floor(lon_lat[2] / 1e-5 + 0.5) AS a,
      floor(lon_lat[3] / 1e-5 + 0.5) || ',' || floor(lon_lat[4] / 1e-5 + 0.5) AS b
    FROM ends
  ), paired AS (SELECT *, least(a, b) || ' ' || greatest(a, b) AS pair FROM rounded)
  SELECT id, circuit_id AS "circuitId", lateral_offset_m AS "lateralOffsetM", lon_lat AS "lonLat" FROM paired
  WHERE pair IN (SELECT pair FROM paired GROUP BY pair HAVING count(DISTINCT circuit_id) > 1)
  ORDER BY id`

/** What every tile depends on beside its address and filter. */
export const tileVersions = (): Sql => sql`
  SELECT (SELECT version FROM data_version) AS data_version, coalesce((SELECT max(version) FROM policy), 0) AS policy_version`
