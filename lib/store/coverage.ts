import type { SpanCoverage } from '@/lib/contract/coverage'
import { copyRows } from './copy'
import { currentPolicy } from './policies'
import { mustCoverEverything, onCircuit, type Scope } from './scope'
import { inspectedPhases, patrolled } from './sql/inspections'
import { sql, type Sql } from './sql/sql'
import { database, type Db, type Tx } from './transaction'

/**
 * Writes anew which spans and phases the readings and patrols of these imports have seen, and nothing of other imports:
 * what stands comes from the placements and extents as they are now. Returns the circuits concerned, before and after.
 */
export async function rebuildCoverage(scope: Scope, importIds: readonly number[], db: Db): Promise<number[]> {
  mustCoverEverything(scope)
  if (importIds.length === 0) return []
  const before = await db.rows<{ circuit_id: number }>(circuitsOf(sql`v.import_id = ANY(${importIds}::int[])`))
  await db.run(sql`DELETE FROM span_coverage WHERE import_id = ANY(${importIds}::int[])`)
  await db.run(seenByReadings(importIds))
  await db.run(seenByPatrols(importIds))
  const after = await db.rows<{ circuit_id: number }>(circuitsOf(sql`v.import_id = ANY(${importIds}::int[])`))
  return [...new Set([...before, ...after].map((row) => row.circuit_id))]
}

export interface SpanSeen { spanId: number; phase: string | null; method: string; surveyedOnMs: number; surveyId: number }

/** What the readings of an import that is under way have seen, each span, phase, method and survey once. */
export async function insertCoverage(scope: Scope, importId: number, seen: Iterable<SpanSeen>, tx: Tx): Promise<void> {
  mustCoverEverything(scope)
  function* rows() {
    for (const s of seen) yield [s.spanId, s.phase ?? '', s.method, new Date(s.surveyedOnMs).toISOString().slice(0, 10), s.surveyId, importId]
  }
  await copyRows(tx, 'span_coverage', ['span_id', 'phase', 'method', 'surveyed_on', 'survey_id', 'import_id'], rows())
}

/** Written anew for the spans of some splices, where one reading of an import found another place. */
export async function recoverSpans(scope: Scope, importId: number, spliceIds: readonly number[], db: Db): Promise<void> {
  const spans = sql`SELECT s.span_id FROM splice s WHERE s.id = ANY(${spliceIds}::int[]) AND ${onCircuit(scope, 's.circuit_id')}`
  await db.run(sql`
    DELETE FROM span_coverage WHERE import_id = ${importId} AND span_id IN (${spans}) AND method IN ('resistance', 'infrared', 'visual')`)
  await db.run(sql`
    INSERT INTO span_coverage (span_id, phase, method, surveyed_on, survey_id, import_id)
    SELECT s.span_id, coalesce(s.phase, ''), r.kind, max(r.taken_at AT TIME ZONE 'UTC')::date, r.survey_id, r.import_id
    FROM splice s
    JOIN placement p ON p.splice_id = s.id AND p.current AND p.state = 'placed' AND p.import_id = ${importId}
    JOIN reading r ON r.id = p.reading_id AND NOT r.withdrawn AND r.taken_at IS NOT NULL
    WHERE s.span_id IN (${spans})
    GROUP BY s.span_id, coalesce(s.phase, ''), r.kind, r.survey_id, r.import_id`)
}

const circuitsOf = (where: Sql): Sql => sql`
  SELECT DISTINCT sec.circuit_id FROM span_coverage v JOIN span sp ON sp.id = v.span_id JOIN section sec ON sec.id = sp.section_id WHERE ${where}`

// A reading without a time says nothing of when its span was looked at. Placements are looked up one by one: within the transaction of a
// long import the planner knows nothing yet of the rows it wrote.
const seenByReadings = (importIds: readonly number[]): Sql => sql`
  INSERT INTO span_coverage (span_id, phase, method, surveyed_on, survey_id, import_id)
  SELECT p.span_id, coalesce(p.phase, ''), r.kind, max(r.taken_at AT TIME ZONE 'UTC')::date, r.survey_id, r.import_id
  FROM reading r
  CROSS JOIN LATERAL (
    SELECT s.span_id, s.phase FROM placement JOIN splice s ON s.id = splice_id
    WHERE reading_id = r.id AND current AND state = 'placed' OFFSET 0
  ) p
  WHERE r.import_id = ANY(${importIds}::int[]) AND NOT r.withdrawn AND r.taken_at IS NOT NULL
  GROUP BY p.span_id, coalesce(p.phase, ''), r.kind, r.survey_id, r.import_id`

// A patrol along a span has all its phases before its eyes.
const seenByPatrols = (importIds: readonly number[]): Sql => sql`
  INSERT INTO span_coverage (span_id, phase, method, surveyed_on, survey_id, import_id)
  SELECT sp.id, ph.phase, x.method, max(x.surveyed_on), x.survey_id, x.import_id
  FROM survey_extent x
  JOIN span sp ON ${patrolled}
  CROSS JOIN (VALUES ('A'), ('B'), ('C')) ph (phase)
  WHERE x.import_id = ANY(${importIds}::int[])
  GROUP BY sp.id, ph.phase, x.method, x.survey_id, x.import_id
  ON CONFLICT DO NOTHING`

/** Every span of a circuit with the last look at each of its phases: what nobody has looked at has none. */
export async function coverageOfCircuit(scope: Scope, circuitId: number, db: Db = database()): Promise<SpanCoverage[]> {
  const ofCircuit = sql`sec.circuit_id = ${circuitId} AND ${onCircuit(scope, 'sec.circuit_id')}`
  return db.rows<SpanCoverage>(sql`
    SELECT sp.id AS span_id, sec.name AS section, back.label AS structure_back, ahead.label AS structure_ahead, sp.start_m, sp.end_m,
      coalesce(looks.seen, '[]') AS seen
    FROM section sec JOIN span sp ON sp.section_id = sec.id
    LEFT JOIN structure back ON back.id = sp.structure_back_id
    LEFT JOIN structure ahead ON ahead.id = sp.structure_ahead_id
    LEFT JOIN (
      SELECT i.span_id, jsonb_agg(jsonb_build_object('phase', i.phase, 'method', last.method, 'surveyed_on', i.last_on, 'survey', last.survey, 'exceptions_only', last.exceptions_only,
        'conclusive_on', i.conclusive_on, 'conclusive_until', i.until) ORDER BY i.phase) AS seen
      FROM (${inspectedPhases(sql`${circuitId}::int`, await currentPolicy(scope, db))}) i
      CROSS JOIN LATERAL (
        -- a reading of the day says more than the patrol that it was taken on
        SELECT v.method, sv.name AS survey, made.kind = 'extents' AS exceptions_only
        FROM span_coverage v JOIN survey sv ON sv.id = v.survey_id JOIN import made ON made.id = v.import_id
        WHERE v.span_id = i.span_id AND v.phase = i.phase ORDER BY v.surveyed_on DESC, made.kind = 'extents', v.survey_id DESC, v.method LIMIT 1
      ) last
      GROUP BY i.span_id
    ) looks ON looks.span_id = sp.id
    WHERE ${ofCircuit}
    ORDER BY sec.name <> 'main', sec.name, sp.ord`)
}
