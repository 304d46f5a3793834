import type { CursorKey } from '../cursor'
import { onCircuit, onPlacement, type Scope } from '../scope'
import { iso } from './iso'
import { spliceInPlace } from './splice-summary'
import { join, name, sql, type Sql } from './sql'

/** A list of changes: what it asks, how many it holds, and the keys that order and continue it. Every key rises. */
export interface ChangeQuestion {
  rows: Sql
  /** Over `q`, the rows of all pages. */
  count: Sql
  keys: readonly { column: string; type: CursorKey }[]
}

const EACH = sql`count(*)::int`
const KEYS = {
  worstFirst: [{ column: 'by_direction', type: 'int' }, { column: 'by_class', type: 'int' }, { column: 'by_before', type: 'int' }, { column: 'id', type: 'int' }],
  worst: [{ column: 'by_class', type: 'int' }, { column: 'id', type: 'int' }],
  latest: [{ column: 'by_time', type: 'float8' }, { column: 'by_number', type: 'int' }],
  readings: [{ column: 'by_time', type: 'float8' }, { column: 'import_id', type: 'int' }, { column: 'by_survey', type: 'int' }, { column: 'by_circuit', type: 'int' }],
} as const satisfies Record<string, ChangeQuestion['keys']>

/** What a position is made of, and what the splice is called. */
const spliceColumns = sql`s.id, coalesce(s.label, 'found ' || s.id) AS splice, s.circuit_id, c.name AS circuit, back.label AS structure_back,
  ahead.label AS structure_ahead, s.offset_m, s.line_distance_m, s.phase, s.position, s.circuit_side, s.subconductor`

const backwards = (column: string): Sql => name(`(-extract(epoch FROM ${column}))::float8 AS by_time`)

/** One page of a list and one row more. */
export function pageOfChanges({ rows, keys }: ChangeQuestion, after: readonly (string | number)[] | null, limit: number): Sql {
  const columns = name(keys.map(({ column }) => column).join(', '))
  const values = after && join(after.map((key, i) => sql`${key}::${name(keys[i]?.type ?? 'text')}`))
  return sql`
    SELECT q.*, jsonb_build_array(${columns}) AS sort_keys FROM (${rows}) q
    WHERE ${values ? sql`(${columns}) > (${values})` : sql`TRUE`} ORDER BY ${columns} LIMIT ${limit + 1}`
}

export const countOfChanges = ({ rows, count }: ChangeQuestion): Sql => sql`SELECT ${count} AS count FROM (${rows}) q`

/** What was last said of the splice of `st` up to that moment: `before`. */
const before = (since: Date): Sql => sql`LEFT JOIN LATERAL (
  SELECT b.shown_class, b.result FROM assessment b WHERE b.splice_id = st.splice_id AND b.assessed_at <= ${since} ORDER BY b.assessed_at DESC, b.id DESC LIMIT 1
) before ON TRUE`

/** Splices whose class on show is another than then; `a` is what was said as it became what it is. */
export const classesChanged = (scope: Scope, since: Date): ChangeQuestion => ({
  keys: KEYS.worstFirst,
  count: EACH,
  rows: sql`
    SELECT x.*, array_position(ARRAY['rise', 'lost', 'fall', 'new'], x.direction) AS by_direction FROM (
      SELECT ${spliceColumns}, coalesce(before.shown_class, 'unknown') AS "from", st.class AS "to",
        CASE WHEN st.class = 'unknown' THEN 'lost' WHEN class_rank(st.class) > greatest(class_rank(coalesce(before.shown_class, 'unknown')), 1) THEN 'rise'
          WHEN class_rank(coalesce(before.shown_class, 'unknown')) = 0 THEN 'new' ELSE 'fall' END AS direction,
        st.held, ${iso('st.found_at')} AS found_at, st.found_ratio, ${iso('a.assessed_at')} AS at, a.result::json AS result, a.cause, a.import_id, i.file_name, a.policy_version,
        CASE WHEN a.cause = 'engineer' THEN (
          SELECT jsonb_build_object('engineer', detail->>'engineer', 'reason', detail->>'reason') FROM audit_entry
          WHERE subject_kind = 'splice' AND subject_id = st.splice_id AND action = 'class.cleared' AND audit_entry.at = a.assessed_at LIMIT 1
        ) END AS decided,
        -class_rank(st.class) AS by_class, -class_rank(coalesce(before.shown_class, 'unknown')) AS by_before
      FROM ${spliceInPlace} JOIN splice_state st ON st.splice_id = s.id ${before(since)}
      JOIN LATERAL (
        SELECT * FROM assessment a WHERE a.splice_id = st.splice_id AND a.assessed_at > ${since} AND a.shown_class = st.class AND NOT EXISTS (
          SELECT FROM assessment later WHERE later.splice_id = a.splice_id AND (later.assessed_at, later.id) > (a.assessed_at, a.id) AND later.shown_class <> st.class
        ) ORDER BY a.assessed_at, a.id LIMIT 1
      ) a ON TRUE
      LEFT JOIN import i ON i.id = a.import_id
      WHERE st.updated_at > ${since} AND st.class <> coalesce(before.shown_class, 'unknown') AND ${onCircuit(scope, 's.circuit_id')}
    ) x`,
})

/** How many of each direction. */
export const directionsOf = ({ rows }: ChangeQuestion): Sql => sql`
  SELECT count(*) FILTER (WHERE direction = 'rise')::int AS rise, count(*) FILTER (WHERE direction = 'lost')::int AS lost,
    count(*) FILTER (WHERE direction = 'fall')::int AS fall, count(*) FILTER (WHERE direction = 'new')::int AS new FROM (${rows}) q`

const CONFLICTS = ['conflict', 'infrared-conflict']

/** Splices with a flag of contradicting readings that they did not have then. */
export const conflictsArisen = (scope: Scope, since: Date): ChangeQuestion => ({
  keys: KEYS.worst,
  count: EACH,
  rows: sql`
    SELECT ${spliceColumns}, st.class, st.held, -class_rank(st.class) AS by_class, fresh.codes, ${iso('a.assessed_at')} AS at, i.file_name
    FROM ${spliceInPlace} JOIN splice_state st ON st.splice_id = s.id ${before(since)}
    CROSS JOIN LATERAL (
      SELECT array_agg(code) AS codes FROM unnest(st.flags) code WHERE code = ANY(${CONFLICTS}::text[])
        AND NOT coalesce((before.result::json->'flags')::jsonb @> to_jsonb(code), FALSE)
    ) fresh
    JOIN LATERAL (
      SELECT * FROM assessment a WHERE a.splice_id = st.splice_id AND a.assessed_at > ${since} AND (a.result::json->'flags')::jsonb @> to_jsonb(fresh.codes[1])
      ORDER BY a.assessed_at, a.id LIMIT 1
    ) a ON TRUE
    LEFT JOIN import i ON i.id = a.import_id
    WHERE st.updated_at > ${since} AND st.flags && ${CONFLICTS}::text[] AND fresh.codes IS NOT NULL AND ${onCircuit(scope, 's.circuit_id')}`,
})

/** Age alone takes less than this of a figure within some months. */
const LEAST_SHARE = 0.01

/** What was said before engine 10 has no figure of its own but the engine's, and none where the class was held. */
const OF_OLD = sql`string_to_array(x.engine_version, '.')::int[] < ARRAY[10]`

/** Splices that may carry more or less than then, as advised; `a` is what was said as the figure became what it is. The worst first. */
export const advisedMoved = (scope: Scope, since: Date): ChangeQuestion => ({
  keys: KEYS.worst,
  count: EACH,
  rows: sql`
    SELECT ${spliceColumns}, st.class, st.held, -class_rank(st.class) AS by_class, then_.advised_a AS from_a, now_.advised_a AS to_a, ${iso('a.assessed_at')} AS at, a.cause,
      i.file_name, CASE WHEN a.cause = 'policy' THEN (SELECT jsonb_build_object('version', version, 'set_by', set_by, 'note', note) FROM policy WHERE version = a.policy_version) END AS policy
    FROM ${spliceInPlace} JOIN splice_state st ON st.splice_id = s.id
    JOIN LATERAL (
      SELECT x.class, x.shown_class, x.held AND ${OF_OLD} AS untold, CASE WHEN NOT ${OF_OLD} THEN x.advised_a WHEN NOT x.held THEN (x.result::json->'limit'->>'lineA')::float8 END AS advised_a
      FROM assessment x WHERE x.splice_id = st.splice_id AND x.assessed_at <= ${since} ORDER BY x.assessed_at DESC, x.id DESC LIMIT 1
    ) then_ ON NOT then_.untold
    JOIN LATERAL (
      SELECT x.id, x.advised_a FROM assessment x WHERE x.splice_id = st.splice_id AND x.assessed_at > ${since} ORDER BY x.assessed_at DESC, x.id DESC LIMIT 1
    ) now_ ON floor(now_.advised_a) IS DISTINCT FROM floor(then_.advised_a) AND CASE
      WHEN now_.advised_a IS NULL THEN class_rank(st.class) <> 0
      WHEN then_.advised_a IS NULL THEN class_rank(then_.shown_class) <> 0
      ELSE abs(now_.advised_a - then_.advised_a) >= ${LEAST_SHARE}::float8 * then_.advised_a END
    JOIN LATERAL (
      SELECT * FROM assessment a WHERE a.splice_id = st.splice_id AND a.assessed_at > ${since} AND ${near('a')} AND NOT EXISTS (
        SELECT FROM assessment later WHERE later.splice_id = a.splice_id AND (later.assessed_at, later.id) > (a.assessed_at, a.id) AND NOT ${near('later')}
      ) ORDER BY a.assessed_at, a.id LIMIT 1
    ) a ON TRUE
    LEFT JOIN import i ON i.id = a.import_id
    WHERE st.updated_at > ${since} AND ${onCircuit(scope, 's.circuit_id')}`,
})

/** Whether it gave the figure that stands now, but for what age does. */
function near(assessment: 'a' | 'later'): Sql {
  const advised = name(`${assessment}.advised_a`)
  return sql`coalesce(abs(${advised} - now_.advised_a) < ${LEAST_SHARE}::float8 * now_.advised_a, ${advised} IS NULL AND now_.advised_a IS NULL)`
}

/** A row for each step in the register of limits. */
export const limitsMoved = (scope: Scope, since: Date): ChangeQuestion => ({
  keys: KEYS.latest,
  count: EACH,
  rows: sql`
    SELECT ${spliceColumns}, l.id AS limit_id, l.line_a, c.voltage_kv, t.step, ${iso('t.at')} AS at, t.by, t.why, ${backwards('t.at')}, l.id * 4 + t.n AS by_number
    FROM current_limit l JOIN ${spliceInPlace} ON s.id = l.splice_id
    CROSS JOIN LATERAL (VALUES (0, 'lifted', l.lifted_at, l.lifted_by, l.lifted_why), (1, 'accepted', l.accepted_at, l.accepted_by, NULL),
      (2, 'agreed', l.agreed_at, l.agreed_by, NULL), (3, 'proposed', l.proposed_at, l.proposed_by, l.reason)) t (n, step, at, by, why)
    WHERE t.at > ${since} AND ${onCircuit(scope, 's.circuit_id')}`,
})

export const classesCleared = (scope: Scope, since: Date): ChangeQuestion => ({
  keys: KEYS.latest,
  count: EACH,
  rows: sql`
    SELECT ${spliceColumns}, ${iso('e.at')} AS at, e.detail->>'engineer' AS engineer, e.detail->>'reason' AS reason, coalesce(e.detail->>'from', 'unknown') AS "from",
      coalesce(e.detail->>'to', 'unknown') AS "to", e.actor AS by, ${backwards('e.at')}, e.id AS by_number
    FROM audit_entry e JOIN ${spliceInPlace} ON s.id = e.subject_id
    WHERE e.subject_kind = 'splice' AND e.action = 'class.cleared' AND e.at > ${since} AND ${onCircuit(scope, 's.circuit_id')}`,
})

/** Readings marked after repair, by splice and survey, that came in or were placed since then. */
export const repairsProved = (scope: Scope, since: Date): ChangeQuestion => ({
  keys: KEYS.latest,
  count: EACH,
  rows: sql`
    SELECT ${spliceColumns}, st.class, st.held, g.readings, g.survey, ${iso('g.taken_at')} AS taken_at, ${iso('g.at')} AS at, ${backwards('g.at')}, g.by_number
    FROM (
      SELECT p.splice_id, sv.name AS survey, count(*)::int AS readings, max(r.taken_at) AS taken_at, max(greatest(i.finished_at, p.decided_at)) AS at, max(r.id) AS by_number
      FROM reading r JOIN import i ON i.id = r.import_id JOIN placement p ON p.reading_id = r.id AND p.current AND p.state = 'placed' JOIN survey sv ON sv.id = r.survey_id
      WHERE r.after_repair AND NOT r.withdrawn AND p.splice_id IS NOT NULL AND greatest(i.finished_at, p.decided_at) > ${since}
      GROUP BY p.splice_id, sv.id
    ) g JOIN ${spliceInPlace} ON s.id = g.splice_id JOIN splice_state st ON st.splice_id = s.id
    WHERE ${onCircuit(scope, 's.circuit_id')}`,
})

/** What came in, and what was taken back of what was here then, by import, survey and circuit. */
export const readingsCome = (scope: Scope, since: Date): ChangeQuestion => ({
  keys: KEYS.readings,
  count: sql`coalesce(sum(q.readings), 0)::int`,
  rows: sql`
    SELECT i.id AS import_id, i.file_name, sv.name AS survey, c.id AS circuit_id, c.name AS circuit, ${iso('g.at')} AS at, g.undone,
      CASE WHEN g.undone THEN coalesce((SELECT actor FROM audit_entry WHERE subject_kind = 'import' AND subject_id = i.id AND action = 'import.undone' ORDER BY id DESC LIMIT 1), i.actor)
        ELSE i.actor END AS by,
      g.readings, g.placed, g.review, g.set_aside, ${backwards('g.at')}, sv.id AS by_survey, coalesce(c.id, 0) AS by_circuit
    FROM (
      SELECT r.import_id, r.survey_id, p.circuit_id, FALSE AS undone, i.finished_at AS at, count(*)::int AS readings, count(*) FILTER (WHERE p.state = 'placed')::int AS placed,
        count(*) FILTER (WHERE p.state = 'review')::int AS review, count(*) FILTER (WHERE p.state = 'rejected')::int AS set_aside
      FROM import i JOIN reading r ON r.import_id = i.id AND NOT r.withdrawn JOIN placement p ON p.reading_id = r.id AND p.current
      WHERE i.finished_at > ${since} AND ${onPlacement(scope, 'p')} GROUP BY 1, 2, 3, 5
      UNION ALL
      SELECT r.import_id, r.survey_id, p.circuit_id, TRUE, i.undone_at, count(*)::int, 0, 0, 0
      FROM import i JOIN reading r ON r.import_id = i.id AND r.withdrawn
      CROSS JOIN LATERAL (SELECT * FROM placement last WHERE last.reading_id = r.id ORDER BY last.current DESC, last.id DESC LIMIT 1) p
      WHERE i.undone_at > ${since} AND i.finished_at <= ${since} AND ${onPlacement(scope, 'p')} GROUP BY 1, 2, 3, 5
    ) g JOIN import i ON i.id = g.import_id JOIN survey sv ON sv.id = g.survey_id LEFT JOIN circuit c ON c.id = g.circuit_id`,
})

/** What waits now, by why. */
export const placementsWaiting = (scope: Scope, since: Date): Sql => sql`
  SELECT p.review_cause AS cause, count(*)::int AS count, count(*) FILTER (WHERE i.finished_at > ${since})::int AS since,
    count(*) FILTER (WHERE EXISTS (SELECT FROM urgent_notice u WHERE u.reading_id = r.id))::int AS urgent
  FROM placement p JOIN reading r ON r.id = p.reading_id JOIN import i ON i.id = r.import_id
  WHERE p.current AND p.state = 'review' AND NOT r.withdrawn AND ${onPlacement(scope, 'p')}
  GROUP BY 1 ORDER BY 4 DESC, 2 DESC, 1`
