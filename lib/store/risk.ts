import { LARGE_MW, LOAD_NOT_KNOWN_PLACE, LOAD_STEPS } from '@/lib/condition/risk'
import { onCircuit, type Scope } from './scope'
import { join, sql, type Sql } from './sql/sql'
import type { Db } from './transaction'

/** More than any load is over any limit; a limit of nothing is passed by everything. */
const MOST_SHARE = 99

/** What flows: the latest load that nobody suspects or the latest expected peak, whichever is greater, A per phase. */
export const greaterFlowOf = (sectionId: Sql): Sql => sql`greatest(
  (SELECT x.current_a FROM section_load x WHERE x.section_id = ${sectionId} AND x.flow = 'carried' AND x.quality IS DISTINCT FROM 'suspect' ORDER BY x.taken_at DESC LIMIT 1),
  (SELECT x.current_a FROM section_load x WHERE x.section_id = ${sectionId} AND x.flow = 'expected-peak' ORDER BY x.taken_at DESC LIMIT 1))`

/** Crossings of the span on which splice `s` hangs, span `sp` of section `sec`; a crossing counts along the main section. */
export const crossingsOfSpan: Sql = sql`crossing x WHERE x.circuit_id = s.circuit_id AND sec.name = 'main' AND x.line_distance_m BETWEEN sp.start_m AND sp.end_m`

const loadPlace: Sql = sql`CASE WHEN f.share IS NULL THEN ${LOAD_NOT_KNOWN_PLACE}::int ${join(LOAD_STEPS.map(({ from, place }) => sql`WHEN f.share >= ${from}::float8 THEN ${place}::int`), ' ')} ELSE 0 END`

/** Brings what the watch list is ordered by up to date, of the degraded and worse splices of these circuits; the rule is `lib/condition/risk.ts`. */
export async function rollUpRisk(scope: Scope, circuitIds: readonly number[], db: Db): Promise<void> {
  await db.run(sql`
    UPDATE splice_state st SET load_share = r.share, consequence = r.consequence, risk = r.risk
    FROM (
      SELECT f.*, ${loadPlace} * 100 + CASE WHEN f.held OR f.confidence = 'high' THEN 2 WHEN f.confidence = 'medium' THEN 1 ELSE 0 END * 10 + f.consequence AS risk
      FROM (
        SELECT state.splice_id, state.held, state.confidence,
          CASE WHEN lim.a IS NULL OR flow.a IS NULL THEN NULL WHEN lim.a = 0 THEN ${MOST_SHARE}::float8 ELSE least(flow.a / lim.a, ${MOST_SHARE}::float8) END AS share,
          CASE WHEN c.radial THEN 2 ELSE 0 END + CASE WHEN c.mw >= ${LARGE_MW}::float8 THEN 1 ELSE 0 END + CASE WHEN EXISTS (SELECT FROM ${crossingsOfSpan}) THEN 1 ELSE 0 END AS consequence
        FROM splice_state state JOIN splice s ON s.id = state.splice_id JOIN circuit c ON c.id = s.circuit_id
        JOIN section sec ON sec.id = s.section_id JOIN span sp ON sp.id = s.span_id
        CROSS JOIN LATERAL (SELECT least(state.limit_line_a, (
          SELECT l.line_a FROM current_limit l WHERE l.splice_id = s.id AND l.lifted_at IS NULL AND l.accepted_at IS NOT NULL)) AS a) lim
        CROSS JOIN LATERAL (SELECT ${greaterFlowOf(sql`s.section_id`)} AS a) flow
        WHERE state.circuit_id = ANY(${circuitIds}::int[]) AND state.class IN ('degraded', 'urgent', 'critical') AND ${onCircuit(scope, 'state.circuit_id')}
      ) f
    ) r
    WHERE st.splice_id = r.splice_id AND (st.load_share, st.consequence, st.risk) IS DISTINCT FROM (r.share, r.consequence, r.risk)`)
  await db.run(sql`
    UPDATE splice_state st SET load_share = NULL, consequence = 0, risk = 0
    WHERE st.circuit_id = ANY(${circuitIds}::int[]) AND st.class NOT IN ('degraded', 'urgent', 'critical') AND (st.risk > 0 OR st.load_share IS NOT NULL OR st.consequence > 0)
      AND ${onCircuit(scope, 'st.circuit_id')}`)
}
