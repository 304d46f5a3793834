import { FIELD_COLUMNS } from '../reading-columns'
import { iso } from './iso'
import { name, sql, type Sql } from './sql'

/** The columns of the API's reading with its placement flat beside it (`p_…`), over `readingTables`. */
export const readingColumns: Sql = sql`
  r.id, r.reading_key AS reading_id, r.import_id, r.row_no AS row, sv.name AS survey, r.kind, ${iso('r.taken_at')} AS taken_at,
  r.lon, r.lat, r.gnss_accuracy_m, r.position_of, r.platform, r.raw_row,
  ${name(FIELD_COLUMNS.map(([column, field]) => `r.${column} AS f_${field}`).join(', '))},
  p.state AS p_state, p.circuit_id AS p_circuit_id, c.name AS p_circuit, sec.name AS p_section, p.span_id AS p_span_id,
  p.splice_id AS p_splice_id, coalesce(s.label, 'found ' || s.id) AS p_splice, p.line_distance_m AS p_line_distance_m,
  p.lon AS p_lon, p.lat AS p_lat, p.offset_m AS p_offset_m, p.probability AS p_probability, p.method AS p_method,
  p.reasons AS p_reasons, p.candidates AS p_candidates, p.decided_by AS p_decided_by, ${iso('p.decided_at')} AS p_decided_at`

/** Readings that count, each with its current placement. */
export const readingTables: Sql = sql`
  reading r
  JOIN survey sv ON sv.id = r.survey_id
  JOIN placement p ON p.reading_id = r.id AND p.current
  LEFT JOIN circuit c ON c.id = p.circuit_id
  LEFT JOIN section sec ON sec.id = p.section_id
  LEFT JOIN splice s ON s.id = p.splice_id`
