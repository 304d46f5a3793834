import { iso } from './iso'
import { sql, type Sql } from './sql'

/** The last 200 things that the engine said of a splice. */
export const assessmentsOf = (spliceId: number): Sql => sql`
  SELECT 'assessment' AS kind, ${iso('a.assessed_at')} AS at, a.shown_class AS class, a.class AS measured_class, a.held, a.confidence, a.ratio,
    CASE WHEN a.ratio IS NULL THEN (SELECT (x->>'k')::float8 FROM json_array_elements(a.result::json->'fusion'->'sources') x WHERE x->>'source' = 'infrared' LIMIT 1) END AS infrared_ratio,
    a.cause,
    i.file_name, a.engine_version, a.policy_version
  FROM assessment a LEFT JOIN import i ON i.id = a.import_id
  WHERE a.splice_id = ${spliceId} ORDER BY a.assessed_at DESC, a.id DESC LIMIT 200`

/** Notices of readings that are, or were until they were withdrawn, on the splice. */
export const noticesOf = (spliceId: number): Sql => sql`
  SELECT ${iso('u.raised_at')} AS raised_at, ${iso('u.acknowledged_at')} AS told_at, u.acknowledged_by AS by, u.told_to, ${iso('u.told_at')} AS called_at,
    r.withdrawn, u.class, u.ratio, u.basis, r.reading_key,
    sv.name AS survey
  FROM placement p
  JOIN urgent_notice u ON u.reading_id = p.reading_id AND (p.current OR u.placement_id = p.id)
  JOIN reading r ON r.id = u.reading_id
  JOIN survey sv ON sv.id = r.survey_id
  WHERE p.splice_id = ${spliceId} ORDER BY u.raised_at DESC, u.id DESC LIMIT 200`

export const decisionsOn = (spliceId: number): Sql => sql`
  SELECT 'decision' AS kind, ${iso('at')} AS at, detail->>'engineer' AS engineer, detail->>'reason' AS reason, coalesce(detail->>'from', 'unknown') AS "from",
    coalesce(detail->>'to', 'unknown') AS "to", actor AS by, detail->>'cause' AS cause, detail->>'cause_text' AS cause_text
  FROM audit_entry WHERE subject_kind = 'splice' AND subject_id = ${spliceId} AND action = 'class.cleared'`

/** A repair is known by the readings that say they were taken after one. */
export const repairsOf = (spliceId: number): Sql => sql`
  SELECT 'repair' AS kind, ${iso('min(r.taken_at)')} AS at, sv.name AS survey, count(*)::int AS readings
  FROM placement p JOIN reading r ON r.id = p.reading_id AND NOT r.withdrawn JOIN survey sv ON sv.id = r.survey_id
  WHERE p.splice_id = ${spliceId} AND p.current AND p.state = 'placed' AND r.after_repair AND r.taken_at IS NOT NULL
  GROUP BY sv.id`

/** Every step of every limit of a splice. Accepting one is reading it back. */
export const limitStepsOf = (spliceId: number): Sql => sql`
  SELECT 'limit' AS kind, ${iso('said.at')} AS at, said.step, l.line_a, said.by, said.why
  FROM current_limit l CROSS JOIN LATERAL (VALUES
    (l.proposed_at, 'proposed', l.proposed_by, l.reason), (l.agreed_at, 'agreed', l.agreed_by, NULL), (l.accepted_at, 'accepted', l.accepted_by, NULL),
    (l.lifted_at, CASE WHEN l.accepted_at IS NULL THEN 'withdrawn' ELSE 'lifted' END, l.lifted_by, l.lifted_why)
  ) said (at, step, by, why)
  WHERE l.splice_id = ${spliceId} AND said.at IS NOT NULL`

/** Undone imports after which the splice was assessed anew. */
export const undoneOn = (spliceId: number): Sql => sql`
  SELECT DISTINCT 'undo' AS kind, ${iso('i.undone_at')} AS at, i.file_name, (
      SELECT count(DISTINCT r.id) FROM placement p JOIN reading r ON r.id = p.reading_id AND r.import_id = i.id WHERE p.splice_id = ${spliceId}
    )::int AS readings,
    (SELECT actor FROM audit_entry WHERE subject_kind = 'import' AND subject_id = i.id AND action = 'import.undone' ORDER BY id DESC LIMIT 1) AS by
  FROM assessment a JOIN import i ON i.id = a.import_id AND i.undone_at IS NOT NULL
  WHERE a.splice_id = ${spliceId} AND a.cause = 'undo'`

/** The reading behind a finding: what became of it. */
export const findingReading = (readingId: number, spliceId: number): Sql => sql`
  SELECT sv.name AS survey, CASE WHEN r.withdrawn THEN jsonb_build_object('file_name', i.file_name, 'at', ${iso('i.undone_at')}) END AS withdrawn,
    NOT r.withdrawn AND NOT EXISTS (
      SELECT FROM placement p WHERE p.reading_id = r.id AND p.current AND p.state = 'placed' AND p.splice_id = ${spliceId}) AS moved
  FROM reading r JOIN survey sv ON sv.id = r.survey_id JOIN import i ON i.id = r.import_id WHERE r.id = ${readingId}`
