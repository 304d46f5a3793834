import { iso } from './iso'
import { sql, type Sql } from './sql'

/** Condition over `p` and `u`: the placement that counts for a notice, the last one where its reading was withdrawn. */
export const placeOfNotice = sql`(p.reading_id = u.reading_id AND p.current OR p.id = u.placement_id)`

/** The row of the likeliest span of a reading that is not placed. */
const nearest = sql`CASE WHEN p.state <> 'placed' THEN p.candidates->0 END`

const declared = sql`coalesce(r.structure_back, r.structure_ahead, w.says->>'structure_back', w.says->>'structure_ahead')`

/** The first of what is placed, what is declared (with a row's own words) and what is nearest; a declared end stays without the nearest other one. */
const structure = (end: 'back' | 'ahead'): Sql => {
  const [ofSpan, ofReading, key, candidate] = end === 'back'
    ? [sql`back.label`, sql`r.structure_back`, 'structure_back', 'structureBack'] : [sql`ahead.label`, sql`r.structure_ahead`, 'structure_ahead', 'structureAhead']
  return sql`CASE WHEN sp.id IS NOT NULL THEN coalesce(${ofSpan}, ${ofReading}) WHEN ${declared} IS NOT NULL THEN coalesce(${ofReading}, w.says->>${key}::text)
    ELSE coalesce(${nearest}->>${candidate}::text, w.says->'near'->>${key}::text) END`
}

/** The circuit of a notice; of one that was taken back and came again, the one that has its name now. */
const onFile = sql`SELECT o.id, o.name, o.line_name FROM circuit o WHERE o.id = (x.value->>'circuit_id')::int OR lower(o.name) = lower(x.value->>'circuit')
  ORDER BY o.id = (x.value->>'circuit_id')::int DESC LIMIT 1`

const says = (key: string): Sql => sql`(w.says->>${key}::text)`

/**
 * Notices with the reading's place: the splice's where it is placed, what the reading or the row itself declares otherwise, else the likeliest
 * span. Over `u`, `r`, `p` and `w`, the last row that was not read; looked up notice by notice: within the transaction of a long import the
 * planner knows nothing yet of the rows it wrote. */
export const urgentQuestion = (where: Sql): Sql => sql`
  SELECT u.id AS notice_id, u.reading_id, coalesce(r.reading_key, w.reading_key) AS reading_key, coalesce(r.row_no, w.row_no) AS row,
    coalesce(sv.name, w.survey) AS survey, u.class, u.ratio, u.doubt AS provisional, u.by_table, u.basis,
    coalesce(${iso('r.taken_at')}, ${says('taken_at')}) AS taken_at, p.state AS placement_state,
    p.splice_id, coalesce(s.label, 'found ' || s.id, ${says('splice')}) AS splice,
    coalesce(r.circuit_label, ${says('circuit')}) AS says_circuit,
    coalesce(p.lon, r.lon, ${says('lon')}::float8) AS lon, coalesce(p.lat, r.lat, ${says('lat')}::float8) AS lat,
    ${structure('back')} AS structure_back, ${structure('ahead')} AS structure_ahead,
    CASE WHEN sp.id IS NOT NULL THEN 'placed' WHEN ${declared} IS NOT NULL THEN 'declared'
      WHEN coalesce(${nearest}->>'structureBack', ${nearest}->>'structureAhead', w.says->'near'->>'structure_back', w.says->'near'->>'structure_ahead') IS NOT NULL THEN 'nearest'
    END AS position_basis,
    coalesce(s.offset_m, CASE WHEN ${declared} IS NOT NULL THEN coalesce(r.offset_from_structure_m, ${says('offset_m')}::float8) END) AS offset_m, p.line_distance_m,
    coalesce(s.phase, r.phase, ${says('phase')}) AS phase, coalesce(s.position, r.position, ${says('position')}) AS position,
    coalesce(s.circuit_side, r.circuit_side, ${says('circuit_side')}) AS circuit_side, coalesce(s.subconductor, r.subconductor, ${says('subconductor')}) AS subconductor,
    coalesce((SELECT jsonb_agg(jsonb_build_object('circuit_id', c.id, 'circuit', c.name, 'line_name', c.line_name, 'probability', x.value->'probability')
      ORDER BY x.ordinality) FROM jsonb_array_elements(u.circuits) WITH ORDINALITY x CROSS JOIN LATERAL (${onFile}) c), '[]') AS circuits,
    CASE WHEN p.state = 'placed' THEN (SELECT x->'values'->>'others' FROM json_array_elements(p.reasons) x WHERE x->>'code' = 'circuit-by-track' LIMIT 1) END AS other_circuits,
    p.state = 'placed' AND coalesce(s.phase, s.position) IS NOT NULL AND EXISTS (SELECT FROM json_array_elements(p.reasons) x WHERE x->>'code' = 'phase-not-confirmed') AS phase_not_confirmed,
    ${iso('u.raised_at')} AS raised_at, ${iso('u.acknowledged_at')} AS acknowledged_at, u.acknowledged_by,
    u.told_to, ${iso('u.told_at')} AS told_at,
    CASE WHEN r.withdrawn THEN jsonb_build_object('file_name', i.file_name, 'at', ${iso('i.undone_at')}) END AS withdrawn,
    CASE WHEN w.id IS NOT NULL THEN jsonb_build_object('file_name', w.file_name, 'import_id', w.import_id, 'row', w.row_no, 'line', w.line, 'says', w.says,
      'why', w.why, 'undone_at', ${iso('w.undone_at')}, 'read_since', r.id IS NOT NULL AND NOT r.withdrawn) END AS not_read
  FROM urgent_notice u
  LEFT JOIN LATERAL (SELECT * FROM reading WHERE id = u.reading_id OFFSET 0) r ON TRUE
  LEFT JOIN LATERAL (
    SELECT * FROM placement WHERE reading_id = r.id AND current UNION ALL SELECT * FROM placement WHERE id = u.placement_id AND NOT current OFFSET 0
  ) p ON TRUE
  LEFT JOIN LATERAL (
    SELECT ur.*, ri.file_name, ri.undone_at FROM unread_row ur JOIN import ri ON ri.id = ur.import_id WHERE ur.notice_id = u.id ORDER BY ur.id DESC LIMIT 1
  ) w ON TRUE
  LEFT JOIN import i ON i.id = r.import_id
  LEFT JOIN survey sv ON sv.id = r.survey_id
  LEFT JOIN splice s ON s.id = p.splice_id
  LEFT JOIN span sp ON sp.id = coalesce(s.span_id, p.span_id)
  LEFT JOIN structure back ON back.id = sp.structure_back_id
  LEFT JOIN structure ahead ON ahead.id = sp.structure_ahead_id
  WHERE ${where}
  ORDER BY -class_rank(u.class), u.ratio DESC NULLS LAST, u.id`
