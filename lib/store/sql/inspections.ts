import { MEASURED_CLASSES, type Policy } from '@/lib/condition'
import { join, sql, type Sql } from './sql'

export type Rules = Pick<Policy, 'infrared' | 'resurveyYears'>

/**
 * Spans of a circuit that somebody looked at: span_id, last_on (the last day anybody did), and which of its phases were seen: a, b, c, and unconfirmed for one
 * that nobody confirmed. One row a span: a row a phase takes half as long again, here and wherever it is asked.
 * `circuit` is its id, or a column that holds it: circuit by circuit is twice as quick as many at once.
 */
export const lookedAtSpans = (circuit: Sql): Sql => sql`
  SELECT v.span_id, max(v.surveyed_on) AS last_on, bool_or(v.phase = 'A') AS a, bool_or(v.phase = 'B') AS b, bool_or(v.phase = 'C') AS c,
    bool_or(v.phase = '') AS unconfirmed
  FROM span_coverage v
  WHERE v.span_id = ANY(ARRAY(SELECT sp.id FROM section sec JOIN span sp ON sp.section_id = sec.id WHERE sec.circuit_id = ${circuit}))
  GROUP BY v.span_id`

/**
 * Phases of the spans in the rows named `look` (what `lookedAtSpans` asks for) that were looked at conclusively: span_id, phase, conclusive_on, and `until`, the day after which that look is past
 * the re-survey interval of the worst class there (sound where no splice is known); `read_until` is that day of the readings of every interface there alone, by
 * which one bad side would have shown: infrared sees the mean of a splice.
 * Conclusive are those where a failing splice would have shown: every known splice in service there has evidence that could have shown it,
 * or an infrared patrol went along with enough load and not too much wind, both on record. The limits are the policy's, those of a single
 * picture (common practice, no source). A patrol by eye shows no failing splice, and neither does an undated reading; a patrol says nothing
 * of a splice that was put in after it. An extent carries no camera, so the pictures of the same survey speak for it: it proves nothing of a span
 * where one had too few pixels over its barrel, and nothing of the circuit where half of those there or more had (common practice, no source).
 */
export const conclusivePhases = (circuit: Sql, { infrared, resurveyYears }: Rules): Sql => sql`
  WITH known AS MATERIALIZED (
    SELECT s.span_id, coalesce(s.phase, '') AS phase,
      CASE WHEN count(*) = count(st.conclusive_at) THEN (min(st.conclusive_at) AT TIME ZONE 'UTC')::date END AS conclusive_on,
      CASE WHEN count(*) = count(st.every_interface_at) THEN (min(st.every_interface_at) AT TIME ZONE 'UTC')::date END AS read_on,
      min(CASE st.class ${intervals(resurveyYears)} ELSE ${days(resurveyYears.sound)}::int END) AS days,
      max(greatest(s.installed_on, CASE WHEN s.successor_of_id IS NOT NULL
        THEN (SELECT before.removed_on FROM splice before WHERE before.id = s.successor_of_id) END)) AS renewed_on
    FROM splice_state st JOIN splice s ON s.id = st.splice_id
    WHERE st.circuit_id = ${circuit} AND s.circuit_id = ${circuit} GROUP BY s.span_id, coalesce(s.phase, '')
  ), pictures AS MATERIALIZED (
    SELECT st.splice_id, (SELECT survey_id FROM reading WHERE id = picture.id) AS survey_id, picture.far
    FROM splice_state st CROSS JOIN LATERAL (
      SELECT unnest(st.far_picture_ids) AS id, TRUE AS far UNION ALL SELECT unnest(st.near_picture_ids), FALSE
    ) picture WHERE st.circuit_id = ${circuit}
  ), far_surveys AS MATERIALIZED (
    SELECT survey_id FROM pictures GROUP BY survey_id HAVING 2 * count(*) FILTER (WHERE far) >= count(*)
  ), far_spans AS MATERIALIZED (
    SELECT pictures.survey_id, s.span_id FROM pictures JOIN splice s ON s.id = pictures.splice_id WHERE far
  )
  SELECT x.span_id, x.phase, max(x.seen_on) AS conclusive_on, max(x.seen_on) + min(x.days) AS until, max(x.read_on) + min(x.days) AS read_until
  FROM (
    SELECT known.span_id, known.phase, known.conclusive_on AS seen_on, known.read_on, known.days FROM known
    WHERE known.conclusive_on IS NOT NULL AND ${looked}
    UNION ALL
    SELECT look.span_id, look.phase, patrol.last_on, NULL::date, coalesce(known.days, ${days(resurveyYears.sound)}::int)
    FROM (
      SELECT sp.id AS span_id, max(x.surveyed_on) AS last_on
      FROM survey_extent x JOIN section sec ON sec.id = x.section_id JOIN span sp ON ${patrolled}
      WHERE x.circuit_id = ${circuit} AND x.method ~* ${INFRARED} AND x.wind_m_s <= ${infrared.windMS}
        AND x.line_current_a >= ${infrared.leastLoadShare} * sec.rating_a
        AND NOT EXISTS (SELECT FROM far_surveys far WHERE far.survey_id = x.survey_id)
        AND NOT EXISTS (SELECT FROM far_spans far WHERE far.survey_id = x.survey_id AND far.span_id = sp.id)
      GROUP BY sp.id
    ) patrol
    JOIN span_coverage look ON look.span_id = patrol.span_id AND look.phase <> ''
    LEFT JOIN known ON known.span_id = look.span_id AND known.phase = look.phase
    LEFT JOIN known unconfirmed ON unconfirmed.span_id = look.span_id AND unconfirmed.phase = ''
    WHERE coalesce(patrol.last_on >= greatest(known.renewed_on, unconfirmed.renewed_on), TRUE)
  ) x GROUP BY x.span_id, x.phase`

const seen = (phase: Sql): Sql => sql`known.span_id IN (SELECT span_id FROM look WHERE ${phase})`

// A choice is no join: the planner takes `known` for a single row and would go through every look for each of its splices.
const looked = sql`CASE known.phase WHEN 'A' THEN ${seen(sql`a`)} WHEN 'B' THEN ${seen(sql`b`)} WHEN 'C' THEN ${seen(sql`c`)} ELSE ${seen(sql`unconfirmed`)} END`

/** Phases that were looked at ('' where the phase is not confirmed) with their last look and their last conclusive one, for a strip. */
export const inspectedPhases = (circuit: Sql, policy: Rules): Sql => sql`
  WITH look AS MATERIALIZED (${lookedAtSpans(circuit)})
  SELECT last.span_id, last.phase, last.last_on, proved.conclusive_on, proved.until
  FROM (
    SELECT v.span_id, v.phase, max(v.surveyed_on) AS last_on FROM span_coverage v WHERE v.span_id = ANY(ARRAY(SELECT span_id FROM look)) GROUP BY v.span_id, v.phase
  ) last
  LEFT JOIN (${conclusivePhases(circuit, policy)}) proved ON proved.span_id = last.span_id AND proved.phase = last.phase`

const DAYS_PER_YEAR = 365.25
const days = (years: number): number => Math.round(years * DAYS_PER_YEAR)

const intervals = (years: Policy['resurveyYears']): Sql => join(MEASURED_CLASSES.map((name) => sql`WHEN ${name} THEN ${days(years[name])}::int`), ' ')

/** People write the method of a patrol in their own words. */
const INFRARED = '\\m(infrared|ir|thermal|thermograph\\w*)\\M'

/** A span `sp` that the patrol `x` went along: a sliver at the end of its range was not patrolled. */
export const patrolled: Sql = sql`sp.section_id = x.section_id
  AND least(sp.end_m, x.end_m) - greatest(sp.start_m, x.start_m) >= 0.5 * (sp.end_m - sp.start_m)`

/**
 * Why a patrol `x` of a section `sec` would not have shown a failing splice, in the words of the contract; empty: by load and wind it would have.
 * What its pictures say of its camera comes besides, see `conclusivePhases`, whose limits these are.
 */
export const patrolDoubts = ({ infrared }: Pick<Policy, 'infrared'>): Sql => sql`array_remove(CASE WHEN x.method !~* ${INFRARED} THEN ARRAY['not-infrared'] ELSE ARRAY[
  CASE WHEN x.line_current_a IS NULL OR sec.rating_a IS NULL THEN 'load-unknown' WHEN x.line_current_a < ${infrared.leastLoadShare} * sec.rating_a THEN 'low-load' END,
  CASE WHEN x.wind_m_s IS NULL THEN 'wind-unknown' WHEN x.wind_m_s > ${infrared.windMS} THEN 'wind' END] END, NULL)`
