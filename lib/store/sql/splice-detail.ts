import { iso } from './iso'
import { lastLoadOf, plannedOf } from './last-load'
import { readingBehind } from './response'
import { spliceInPlace } from './splice-summary'
import { sql, type Sql } from './sql'

/** One splice whole, with its latest assessment; a removed one has no state, so its last assessment speaks for it. */
export const spliceDetailQuestion = (where: Sql): Sql => sql`
  SELECT s.id, coalesce(s.label, 'found ' || s.id) AS splice, s.circuit_id, c.name AS circuit, c.line_name, sec.name AS section, c.voltage_kv,
    s.phase, s.position, s.circuit_side, s.subconductor, s.kind,
    back.label AS structure_back, ahead.label AS structure_ahead, s.offset_m, s.line_distance_m, s.lon, s.lat, sp.end_m - sp.start_m AS span_m,
    coalesce(st.class, a.class, 'unknown') AS class, coalesce(st.measured_class, a.class, 'unknown') AS measured_class, coalesce(st.held, FALSE) AS held,
    coalesce(st.confidence, a.confidence, 'low') AS confidence, CASE WHEN st.splice_id IS NULL THEN a.ratio ELSE st.ratio END AS ratio,
    coalesce(st.measured_ratio, a.ratio) AS measured_ratio, ${iso('st.found_at')} AS found_at, coalesce(st.flags, '{}') AS flags,
    ${iso('st.last_reading_at')} AS last_reading_at, ${iso('st.conclusive_at')} AS conclusive_at, ${iso('st.measure_by')} AS measure_by, coalesce(st.reading_count, 0) AS reading_count, s.found_by_survey,
    s.fitting_type, s.barrel_od_mm, s.barrel_length_mm, s.installed_on, s.batch, s.removed_on,
    sec.conductor_code AS conductor, sec.subconductors, sec.rating_a, sec.max_operating_c, sec.elevation_m, ${lastLoadOf('sec.id')} AS last_load,
    ${plannedOf('expected-peak')} AS expected_peak, ${plannedOf('post-contingency')} AS post_contingency,
    a.result::json AS assessment, ${iso('a.assessed_at')} AS assessed_at, st.found_ratio, st.found_reading_id,
    ${iso("CASE st.class WHEN 'critical' THEN st.critical_since WHEN 'urgent' THEN st.urgent_since WHEN 'degraded' THEN st.degraded_since END")} AS raised_at,
    ${iso('behind.taken_at')} AS first_found_at, ${iso('behind.entered_at')} AS read_in_at
  FROM ${spliceInPlace}
  LEFT JOIN splice_state st ON st.splice_id = s.id
  LEFT JOIN LATERAL (
    SELECT taken_at, entered_at FROM (SELECT st.*) state CROSS JOIN LATERAL (${readingBehind}) of_class WHERE state.class IN ('degraded', 'urgent', 'critical')
  ) behind ON TRUE
  LEFT JOIN LATERAL (
    SELECT x.* FROM assessment x WHERE x.splice_id = s.id ORDER BY x.id = st.assessment_id DESC NULLS LAST, x.assessed_at DESC, x.id DESC LIMIT 1
  ) a ON TRUE
  WHERE ${where}`
