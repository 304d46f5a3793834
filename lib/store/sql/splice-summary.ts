import { iso } from './iso'
import { sql } from './sql'

/** The columns of the API's splice summary, over `spliceTables`. */
export const spliceColumns = sql`
  s.id, coalesce(s.label, 'found ' || s.id) AS splice, s.circuit_id, c.name AS circuit, sec.name AS section, c.voltage_kv,
  s.phase, s.position, s.circuit_side, s.subconductor, s.kind,
  back.label AS structure_back, ahead.label AS structure_ahead, s.offset_m, s.line_distance_m, s.lon, s.lat,
  st.class, st.measured_class, st.held, st.confidence, st.ratio, st.measured_ratio, ${iso('st.found_at')} AS found_at, st.flags,
  ${iso('st.last_reading_at')} AS last_reading_at, ${iso('st.conclusive_at')} AS conclusive_at, ${iso('st.measure_by')} AS measure_by, st.reading_count, s.found_by_survey`

/** A splice `s` with its circuit `c`, section `sec`, span `sp` and the structures `back` and `ahead`. */
export const spliceInPlace = sql`
  splice s
  JOIN circuit c ON c.id = s.circuit_id
  JOIN section sec ON sec.id = s.section_id
  JOIN span sp ON sp.id = s.span_id
  LEFT JOIN structure back ON back.id = sp.structure_back_id
  LEFT JOIN structure ahead ON ahead.id = sp.structure_ahead_id`

/** Splices in service, with their latest state `st`. */
export const spliceTables = sql`${spliceInPlace} JOIN splice_state st ON st.splice_id = s.id`
