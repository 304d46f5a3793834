import { LARGE_MW, LOAD_NOT_KNOWN_PLACE, LOAD_STEPS } from '@/lib/condition/risk'
import { onCircuit, type Scope } from './scope'
import { join, sql, type Sql } from './sql/sql'
import type { Db } from './transaction'

/** More than any load is over any limit; a limit of nothing is passed by everything. */
const MOST_SHARE = 99

/** What flows: the latest load that nobody suspects, the latest expected peak or flow after a contingency, whichever is greatest, A per phase. */
export const greatestFlowOf = (sectionId: Sql): Sql => sql`greatest(
  (SELECT x.current_a FROM section_load x WHERE x.section_id = ${sectionId} AND x.flow = 'carried' AND x.quality IS DISTINCT FROM 'suspect' ORDER BY x.taken_at DESC LIMIT 1),
  (SELECT x.current_a FROM section_load x WHERE x.section_id = ${sectionId} AND x.flow = 'expected-peak' ORDER BY x.taken_at DESC LIMIT 1),
  (SELECT x.current_a FROM section_load x WHERE x.section_id = ${sectionId} AND x.flow = 'post-contingency' ORDER BY x.taken_at DESC LIMIT 1))`

/** Crossings of the span on which splice `s` hangs, span `sp` of section `sec`; a crossing counts along the main section. */
export const crossingsOfSpan: Sql = sql`crossing x WHERE x.circuit_id = s.circuit_id AND sec.name = 'main' AND x.line_distance_m BETWEEN sp.start_m AND sp.end_m`

const loadPlace: Sql = sql`CASE WHEN f.share IS NULL THEN ${LOAD_NOT_KNOWN_PLACE}::int ${join(LOAD_STEPS.map(({ from, place }) => sql`WHEN f.share >= ${from}::float8 THEN ${place}::int`), ' ')} ELSE 0 END`

/** Of which the watch list is made. */
const LISTED: Sql = sql`('degraded', 'urgent', 'critical')`

/** A splice's state as a question of its risk needs it; each a column or a value. */
interface StateColumns { spliceId: Sql; class: Sql; held: Sql; confidence: Sql; limitLineA: Sql }

/** Share of its limit that flows, consequence and risk of a degraded or worse splice, in one row; none of any other. The rule is `lib/condition/risk.ts`. */
export const riskOf = (state: StateColumns): Sql => sql`
  SELECT f.share, f.consequence,
    ${loadPlace} * 100 + CASE WHEN ${state.held} OR ${state.confidence} = 'high' THEN 2 WHEN ${state.confidence} = 'medium' THEN 1 ELSE 0 END * 10 + f.consequence AS risk
  FROM (
    SELECT CASE WHEN lim.a IS NULL OR flow.a IS NULL THEN NULL WHEN lim.a = 0 THEN ${MOST_SHARE}::float8 ELSE least(flow.a / lim.a, ${MOST_SHARE}::float8) END AS share,
      CASE WHEN c.radial THEN 2 ELSE 0 END + CASE WHEN c.mw >= ${LARGE_MW}::float8 THEN 1 ELSE 0 END + CASE WHEN EXISTS (SELECT FROM ${crossingsOfSpan}) THEN 1 ELSE 0 END AS consequence
    FROM splice s JOIN circuit c ON c.id = s.circuit_id JOIN section sec ON sec.id = s.section_id JOIN span sp ON sp.id = s.span_id
    CROSS JOIN LATERAL (SELECT least(${state.limitLineA}, (
      SELECT l.line_a FROM current_limit l WHERE l.splice_id = s.id AND l.lifted_at IS NULL AND l.accepted_at IS NOT NULL)) AS a) lim
    CROSS JOIN LATERAL (SELECT ${greatestFlowOf(sql`s.section_id`)} AS a) flow
    WHERE s.id = ${state.spliceId} AND ${state.class} IN ${LISTED}
  ) f`

/**
 * Brings what the watch list is ordered by up to date on these circuits, after their loads, limits, crossings or weight changed. A splice that is
 * assessed has it written with its state.
 */
export async function rollUpRisk(scope: Scope, circuitIds: readonly number[], db: Db): Promise<void> {
  await db.run(sql`
    UPDATE splice_state st SET load_share = now.share, consequence = now.consequence, risk = now.risk
    FROM (
      SELECT x.splice_id, r.share, coalesce(r.consequence, 0) AS consequence, coalesce(r.risk, 0) AS risk
      FROM splice_state x LEFT JOIN LATERAL (${riskOf({
        spliceId: sql`x.splice_id`, class: sql`x.class`, held: sql`x.held`, confidence: sql`x.confidence`, limitLineA: sql`x.limit_line_a`,
      })}) r ON TRUE
      WHERE x.circuit_id = ANY(${circuitIds}::int[]) AND x.class IN ${LISTED} AND ${onCircuit(scope, 'x.circuit_id')}
    ) now
    WHERE st.splice_id = now.splice_id AND (st.load_share, st.consequence, st.risk) IS DISTINCT FROM (now.share, now.consequence, now.risk)`)
}
