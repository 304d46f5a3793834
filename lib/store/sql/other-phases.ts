import { sql, type Sql } from './sql'

/** Pictures of one flight this far apart saw the same load and weather. */
const APART_MINUTES = 30

/** Infrared readings placed on one splice, each with those that the same survey took of other phases in its span meanwhile. */
export const otherPhasesQuestion = (spliceId: number, where: Sql): Sql => sql`
  SELECT own.id AS reading_id, own.splice_temp_c, own.line_current_a, jsonb_agg(jsonb_build_object('splice_id', s.id, 'splice', coalesce(s.label, 'found ' || s.id),
    'phase', s.phase, 'reading_id', r.id, 'splice_temp_c', r.splice_temp_c, 'line_current_a', r.line_current_a) ORDER BY s.phase, s.id, r.id) AS others
  FROM splice mine
  JOIN placement mine_at ON mine_at.splice_id = mine.id AND mine_at.current AND mine_at.state = 'placed'
  JOIN reading own ON own.id = mine_at.reading_id AND own.kind = 'infrared' AND NOT own.withdrawn AND own.splice_temp_c IS NOT NULL
  JOIN splice s ON s.span_id = mine.span_id AND s.circuit_id = mine.circuit_id AND s.phase <> mine.phase AND s.kind = mine.kind
  JOIN placement at ON at.splice_id = s.id AND at.current AND at.state = 'placed'
  JOIN reading r ON r.id = at.reading_id AND r.survey_id = own.survey_id AND r.kind = 'infrared' AND NOT r.withdrawn AND r.splice_temp_c IS NOT NULL
    AND r.taken_at BETWEEN own.taken_at - make_interval(mins => ${APART_MINUTES}::int) AND own.taken_at + make_interval(mins => ${APART_MINUTES}::int)
  WHERE mine.id = ${spliceId} AND ${where}
  GROUP BY own.id ORDER BY own.taken_at DESC, own.id`
