import { sql, type Sql } from './sql'

/**
 * Readings in review that are urgent or critical by their own numbers, counted for every circuit they may be on: its candidates, and the one
 * that the reading itself names. Rows of circuit_id, urgent, critical and the worst reading's id.
 */
export const unsettledReadings: Sql = sql`
  SELECT circuit_id, count(*) FILTER (WHERE class = 'urgent')::int AS urgent, count(*) FILTER (WHERE class = 'critical')::int AS critical,
    (array_agg(reading_id ORDER BY -class_rank(class), ratio DESC NULLS LAST, reading_id))[1] AS reading_id
  FROM (
    SELECT DISTINCT ON (x.circuit_id, u.reading_id) x.circuit_id, u.reading_id, u.class, u.ratio
    FROM urgent_notice u
    JOIN placement p ON p.reading_id = u.reading_id AND p.current AND p.state = 'review'
    JOIN reading r ON r.id = u.reading_id AND NOT r.withdrawn
    CROSS JOIN LATERAL (
      SELECT (value->>'circuit_id')::int AS circuit_id FROM jsonb_array_elements(u.circuits)
      UNION SELECT d.id FROM circuit d WHERE lower(trim(r.circuit_label)) IN (lower(d.name), lower(d.line_name))
    ) x
    ORDER BY x.circuit_id, u.reading_id, -class_rank(u.class)
  ) each GROUP BY circuit_id`

/** Of a row of these under the name `un`, which a circuit without any lacks. */
export const unsettledJson: Sql = sql`jsonb_build_object('urgent', coalesce(un.urgent, 0), 'critical', coalesce(un.critical, 0), 'reading_id', un.reading_id)`
