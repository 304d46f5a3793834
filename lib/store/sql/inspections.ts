import type { Policy } from '@/lib/condition'
import { sql, type Sql } from './sql'

/**
 * Phases of a circuit's spans that somebody looked at ('' where the phase is not confirmed): span_id, phase, last_on, conclusive_on.
 * `circuit` is its id, or a column that holds it: circuit by circuit is twice as quick as many at once.
 * Conclusive are those where a failing splice would have shown: every known splice in service there has evidence that could have shown it,
 * or an infrared patrol went along with enough load and not too much wind, both on record. The limits are the policy's, those of a single
 * picture (common practice, no source). A patrol by eye shows no failing splice, and neither does an undated reading.
 */
export const inspectedPhases = (circuit: Sql, { infrared }: Pick<Policy, 'infrared'>): Sql => sql`
  SELECT look.span_id, look.phase, look.last_on, greatest(patrol.last_on, known.conclusive_on) AS conclusive_on
  FROM (
    SELECT v.span_id, v.phase, max(v.surveyed_on) AS last_on FROM span_coverage v
    WHERE v.span_id = ANY(ARRAY(SELECT sp.id FROM section sec JOIN span sp ON sp.section_id = sec.id WHERE sec.circuit_id = ${circuit}))
    GROUP BY v.span_id, v.phase
  ) look
  LEFT JOIN (
    SELECT sp.id AS span_id, max(x.surveyed_on) AS last_on
    FROM survey_extent x JOIN section sec ON sec.id = x.section_id JOIN span sp ON ${patrolled}
    WHERE x.circuit_id = ${circuit} AND x.method ~* ${INFRARED} AND x.wind_m_s <= ${infrared.windMS}
      AND x.line_current_a >= ${infrared.leastLoadShare} * sec.rating_a
    GROUP BY sp.id
  ) patrol ON patrol.span_id = look.span_id AND look.phase <> ''
  LEFT JOIN (
    SELECT s.span_id, coalesce(s.phase, '') AS phase, min((st.conclusive_at AT TIME ZONE 'UTC')::date) AS conclusive_on
    FROM splice_state st JOIN splice s ON s.id = st.splice_id
    WHERE st.circuit_id = ${circuit} AND s.circuit_id = ${circuit} GROUP BY s.span_id, coalesce(s.phase, '')
    HAVING count(*) = count(st.conclusive_at)
  ) known ON known.span_id = look.span_id AND known.phase = look.phase`

/** People write the method of a patrol in their own words. */
const INFRARED = '\\m(infrared|ir|thermal|thermograph\\w*)\\M'

/** A span `sp` that the patrol `x` went along: a sliver at the end of its range was not patrolled. */
export const patrolled: Sql = sql`sp.section_id = x.section_id
  AND least(sp.end_m, x.end_m) - greatest(sp.start_m, x.start_m) >= 0.5 * (sp.end_m - sp.start_m)`
