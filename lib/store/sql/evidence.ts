import { spliceInPlace } from './splice-summary'
import { sql, type Sql } from './sql'

export const subjectsQuestion = (spliceIds: readonly number[], where: Sql): Sql => sql`
  SELECT s.id AS splice_id, s.section_id, s.circuit_id, c.name AS circuit, s.kind, s.fitting_type, s.barrel_od_mm, s.barrel_length_mm, s.installed_on,
    sec.conductor_code, sec.subconductors, sec.rating_a, sec.max_operating_c, sec.elevation_m, c.voltage_kv, s.lon, s.lat,
    sp.lon_lat[1] AS from_lon, sp.lon_lat[2] AS from_lat, sp.lon_lat[cardinality(sp.lon_lat) - 1] AS to_lon, sp.lon_lat[cardinality(sp.lon_lat)] AS to_lat,
    back.label AS back, ahead.label AS ahead, st.class, st.found_at,
    st.found_ratio, st.found_reading_id, st.degraded_since, st.urgent_since, st.critical_since, st.reading_count,
    CASE WHEN st.class IS NOT NULL THEN (SELECT max(a.assessed_at) FROM assessment a WHERE a.splice_id = s.id AND a.cause = 'engineer') END AS cleared_at
  FROM ${spliceInPlace}
  LEFT JOIN splice_state st ON st.splice_id = s.id
  WHERE s.id = ANY(${spliceIds}::int[]) AND s.removed_on IS NULL AND ${where}
  ORDER BY s.id`

/**
 * Readings that are placed on these splices and count, but for those of one import. Looked up splice by splice and reading by reading: within
 * the transaction of a long import the planner knows nothing yet of the rows it wrote, and would read them all; and where most readings
 * were withdrawn when it last counted, it takes those that count for a handful and asks for every splice again with each of them.
 */
export const evidenceQuestion = (spliceIds: readonly number[], exceptImportId: number | null): Sql => sql`
  SELECT p.splice_id, r.id, r.kind, r.taken_at, (SELECT name FROM survey WHERE id = r.survey_id) AS survey, r.instrument, r.after_repair, r.structure_back, r.structure_ahead,
    r.side_a_uohm, r.side_b_uohm, r.conductor_uohm, r.conductor_b_uohm, r.conductor_unusable, r.electrode_span_m, r.conductor_span_m, r.barrel_electrode_m, r.repeat_no,
    r.test_current, r.line_current_a, r.current_30min_a, r.splice_temp_c, r.conductor_temp_c, r.reference_kind, r.ambient_c, r.wind_m_s, r.sun, r.rain_1h,
    r.emissivity, r.reflected_c, r.distance_m, r.view_angle_deg, r.ifov_mrad, r.band, r.findings
  FROM unnest(${spliceIds}::int[]) AS wanted (splice_id)
  CROSS JOIN LATERAL (
    SELECT splice_id, reading_id FROM placement
    WHERE splice_id = wanted.splice_id AND current AND state = 'placed' AND import_id IS DISTINCT FROM ${exceptImportId}::int OFFSET 0
  ) p
  CROSS JOIN LATERAL (SELECT * FROM reading WHERE id = p.reading_id OFFSET 0) r
  WHERE NOT r.withdrawn`
