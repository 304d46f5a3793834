import { onCircuit, type Scope } from '../scope'
import { sql, type Sql } from './sql'

/**
 * Every splice in service with its shown class, a column a fact, packed by the server into one byte string each: a million rows arrive
 * in a second or two and never become a million objects. All columns are in the same row order; numbers are big-endian.
 */
export const splicePoints = (scope: Scope): Sql => sql`
  WITH point AS (
    SELECT s.id, s.lon, s.lat, s.circuit_id, coalesce(s.phase, '') AS phase, coalesce(s.label, 'found ' || s.id) AS name,
      array_position(ARRAY['sound', 'watch', 'degraded', 'urgent', 'critical', 'unknown'], st.class) - 1 AS class_no,
      mod(round(degrees(atan2((sp.lon_lat[cardinality(sp.lon_lat) - 1] - sp.lon_lat[1]) * cosd(s.lat),
        sp.lon_lat[cardinality(sp.lon_lat)] - sp.lon_lat[2])))::int + 360, 180) AS axis_deg
    FROM splice s JOIN splice_state st ON st.splice_id = s.id JOIN span sp ON sp.id = s.span_id
    WHERE s.removed_on IS NULL AND ${onCircuit(scope, 's.circuit_id')}
  ), "group" AS (
    SELECT (row_number() OVER (ORDER BY circuit_id, phase) - 1)::int AS no, circuit_id, phase
    FROM (SELECT DISTINCT circuit_id, phase FROM point) d
  )
  SELECT
    (SELECT coalesce(json_agg(json_build_object('circuitId', g.circuit_id, 'voltageKv', c.voltage_kv, 'phase', nullif(g.phase, ''))
      ORDER BY g.no), '[]') FROM "group" g JOIN circuit c ON c.id = g.circuit_id) AS groups,
    string_agg(int4send(point.id), '') AS id,
    string_agg(float8send(point.lon), '') AS lon,
    string_agg(float8send(point.lat), '') AS lat,
    string_agg(substring(int4send(point.class_no) FROM 4), '') AS class_no,
    string_agg(substring(int4send(point.axis_deg) FROM 4), '') AS axis_deg,
    string_agg(int4send("group".no), '') AS group_no,
    string_agg(convert_to(point.name, 'UTF8'), '\\x00'::bytea) AS names
  FROM point JOIN "group" USING (circuit_id, phase)`

/** What every tile depends on beside its address and filter. */
export const tileVersions = (): Sql => sql`
  SELECT (SELECT version FROM data_version) AS data_version, coalesce((SELECT max(version) FROM policy), 0) AS policy_version`
