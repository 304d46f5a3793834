import { iso } from './iso'
import { sql, type Sql } from './sql'

/** Condition over `p` and `u`: the placement that counts for a notice, the last one where its reading was withdrawn. */
export const placeOfNotice = sql`(p.reading_id = u.reading_id AND p.current OR p.id = u.placement_id)`

/**
 * Notices with the reading's place: the splice's where it is placed, what the reading itself declares otherwise. Over `u`, `r`, `p`,
 * looked up notice by notice: within the transaction of a long import the planner knows nothing yet of the rows it wrote. */
export const urgentQuestion = (where: Sql): Sql => sql`
  SELECT u.id AS notice_id, u.reading_id, r.reading_key, r.row_no AS row, sv.name AS survey, u.class, u.ratio, u.doubt AS provisional, u.basis, ${iso('r.taken_at')} AS taken_at, p.state AS placement_state,
    p.splice_id, coalesce(s.label, 'found ' || s.id) AS splice, coalesce(p.lon, r.lon) AS lon, coalesce(p.lat, r.lat) AS lat,
    coalesce(back.label, r.structure_back) AS structure_back, coalesce(ahead.label, r.structure_ahead) AS structure_ahead,
    coalesce(s.offset_m, r.offset_from_structure_m) AS offset_m, p.line_distance_m,
    coalesce(s.phase, r.phase) AS phase, coalesce(s.position, r.position) AS position, coalesce(s.circuit_side, r.circuit_side) AS circuit_side,
    coalesce(s.subconductor, r.subconductor) AS subconductor,
    coalesce((SELECT jsonb_agg(jsonb_build_object('circuit_id', c.id, 'circuit', c.name, 'line_name', c.line_name, 'probability', x.value->'probability')
      ORDER BY x.ordinality) FROM jsonb_array_elements(u.circuits) WITH ORDINALITY x JOIN circuit c ON c.id = (x.value->>'circuit_id')::int), '[]') AS circuits,
    ${iso('u.raised_at')} AS raised_at, ${iso('u.acknowledged_at')} AS acknowledged_at, u.acknowledged_by,
    CASE WHEN r.withdrawn THEN jsonb_build_object('file_name', i.file_name, 'at', ${iso('i.undone_at')}) END AS withdrawn
  FROM urgent_notice u
  CROSS JOIN LATERAL (SELECT * FROM reading WHERE id = u.reading_id OFFSET 0) r
  CROSS JOIN LATERAL (
    SELECT * FROM placement WHERE reading_id = r.id AND current UNION ALL SELECT * FROM placement WHERE id = u.placement_id AND NOT current OFFSET 0
  ) p
  JOIN import i ON i.id = r.import_id
  JOIN survey sv ON sv.id = r.survey_id
  LEFT JOIN splice s ON s.id = p.splice_id
  LEFT JOIN span sp ON sp.id = coalesce(s.span_id, p.span_id)
  LEFT JOIN structure back ON back.id = sp.structure_back_id
  LEFT JOIN structure ahead ON ahead.id = sp.structure_ahead_id
  WHERE ${where}
  ORDER BY -class_rank(u.class), u.ratio DESC NULLS LAST, u.id`
