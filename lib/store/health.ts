import { ownEdge } from '@/lib/condition/edges'
import type { Edges } from '@/lib/condition/types'
import type { Policy } from '@/lib/condition'
import type { CircuitHealth } from '@/lib/contract/contract'
import { limitsByCircuit, NO_LIMITS } from './limits'
import { currentPolicy } from './policies'
import { positionTextOf, type PositionRow } from './position'
import { onCircuit, type Scope } from './scope'
import { iso } from './sql/iso'
import { greatestLoadOf } from './sql/last-load'
import { worstCircuitFirst } from './sql/circuit-summary'
import { readingBehind, responseTime, shownSince } from './sql/response'
import { rollUpClasses, rollUpCoverage } from './sql/roll-up'
import { sql, type Sql } from './sql/sql'
import { unsettledJson, unsettledReadings } from './sql/unsettled'
import { database, type Db } from './transaction'

/** Brings the roll-up of these circuits up to date: classes, worst splice and coverage. */
export async function rollUpCircuits(scope: Scope, circuitIds: readonly number[], policy: Policy, db: Db): Promise<void> {
  if (circuitIds.length === 0) return
  await db.run(rollUpClasses(scope, circuitIds))
  await db.run(rollUpCoverage(scope, circuitIds, policy))
}

type HealthRow = Omit<CircuitHealth, 'worst_splice' | 'limits'> & { worst: (Omit<NonNullable<CircuitHealth['worst_splice']>, 'position_text' | 'own_edge'> & { edges: Edges | null } & PositionRow) | null }

const countsWhere = (condition: Sql): Sql => sql`jsonb_build_object('degraded', count(*) FILTER (WHERE due.class = 'degraded' AND ${condition}),
  'urgent', count(*) FILTER (WHERE due.class = 'urgent' AND ${condition}), 'critical', count(*) FILTER (WHERE due.class = 'critical' AND ${condition}))`

const question = (scope: Scope, where: Sql, policy: Policy): Sql => sql`
  SELECT h.circuit_id, c.name AS circuit, h.splice_count, h.last_surveyed_on, ${greatestLoadOf('c.id')} AS last_load_a, ${iso('h.updated_at')} AS updated_at,
    jsonb_build_object('sound', h.sound_count, 'watch', h.watch_count, 'degraded', h.degraded_count, 'urgent', h.urgent_count,
      'critical', h.critical_count, 'unknown', h.unknown_count) AS counts,
    jsonb_build_object('span_count', h.span_count, 'span_phase_count', h.span_phase_count, 'covered_span_phases', h.covered_span_phases,
      'share', h.covered_span_phases::float8 / nullif(h.span_phase_count, 0), 'conclusive_span_phases', h.conclusive_span_phases,
      'conclusive_share', h.conclusive_span_phases::float8 / nullif(h.span_phase_count, 0),
      'conclusive_oldest_on', h.conclusive_oldest_on, 'conclusive_newest_on', h.conclusive_newest_on,
      'conclusive_stale_span_phases', stale.n, 'conclusive_stale_share', stale.n::float8 / nullif(h.span_phase_count, 0),
      'every_interface_span_phases', every_interface.n) AS coverage,
    late.past_response, late.read_in_late, late.overdue, ${unsettledJson} AS unsettled,
    CASE WHEN s.id IS NOT NULL THEN jsonb_build_object('id', s.id, 'splice', coalesce(s.label, 'found ' || s.id), 'class', st.class,
      'ratio', st.ratio, 'edges', a.result::json->'edges', 'structure_back', back.label, 'structure_ahead', ahead.label, 'offset_m', s.offset_m,
      'line_distance_m', s.line_distance_m, 'phase', s.phase, 'position', s.position, 'circuit_side', s.circuit_side,
      'subconductor', s.subconductor) END AS worst
  FROM circuit_health h
  JOIN circuit c ON c.id = h.circuit_id
  CROSS JOIN LATERAL (
    SELECT coalesce(sum(value::int), 0)::int AS n FROM jsonb_each_text(h.conclusive_until) WHERE key::date < (now() AT TIME ZONE 'UTC')::date
  ) stale
  CROSS JOIN LATERAL (
    SELECT coalesce(sum(value::int), 0)::int AS n FROM jsonb_each_text(h.every_interface_until) WHERE key::date >= (now() AT TIME ZONE 'UTC')::date
  ) every_interface
  CROSS JOIN LATERAL (
    SELECT ${countsWhere(sql`now() > due.since + due.allowed`)} AS past_response,
      ${countsWhere(sql`due.unread > due.allowed`)} || jsonb_build_object('longest_days',
        floor(extract(epoch FROM max(due.unread) FILTER (WHERE due.unread > due.allowed)) / 86400)::int) AS read_in_late,
      ${countsWhere(sql`now() > due.found + due.allowed`)} || jsonb_build_object('longest', (array_agg(
        jsonb_build_object('id', due.splice_id, 'splice', due.splice, 'days', floor(extract(epoch FROM now() - due.taken_at) / 86400)::int, 'entered_at', ${iso('due.entered_at')})
        ORDER BY due.taken_at, due.splice_id) FILTER (WHERE now() > due.found + due.allowed))[1]) AS overdue
    FROM (
      SELECT *, since - greatest(coalesce(unread, '0'), '0') AS found FROM (
        SELECT state.class, state.splice_id, coalesce(sl.label, 'found ' || sl.id) AS splice, ${responseTime(policy)} AS allowed, ${shownSince} AS since, behind.entered_at - behind.taken_at AS unread,
          coalesce(behind.entered_at, ${shownSince}) AS entered_at, coalesce(behind.taken_at, ${shownSince}) AS taken_at
        FROM splice_state state JOIN splice sl ON sl.id = state.splice_id LEFT JOIN LATERAL (${readingBehind}) behind ON TRUE
        WHERE state.circuit_id = c.id AND state.class IN ('degraded', 'urgent', 'critical') OFFSET 0
      ) clocks
    ) due
  ) late
  LEFT JOIN (${unsettledReadings}) un ON un.circuit_id = c.id
  LEFT JOIN splice s ON s.id = h.worst_splice_id
  LEFT JOIN splice_state st ON st.splice_id = s.id
  LEFT JOIN assessment a ON a.id = st.assessment_id
  LEFT JOIN span sp ON sp.id = s.span_id
  LEFT JOIN structure back ON back.id = sp.structure_back_id
  LEFT JOIN structure ahead ON ahead.id = sp.structure_ahead_id
  WHERE ${where} AND ${onCircuit(scope, 'c.id')}
  ORDER BY ${worstCircuitFirst}`

function healthJson({ worst, ...row }: HealthRow, position: (row: PositionRow) => string, limits: CircuitHealth['limits'] | undefined): CircuitHealth {
  return {
    ...row, limits: limits ?? NO_LIMITS,
    worst_splice: worst && { id: worst.id, splice: worst.splice, class: worst.class, ratio: worst.ratio, position_text: position(worst), own_edge: worst.edges && ownEdge(worst.class, worst.edges) },
  }
}

/** How every circuit stands, the worst first. */
export async function listHealth(scope: Scope, db: Db = database()): Promise<CircuitHealth[]> {
  const policy = await currentPolicy(scope, db)
  const [rows, position, limits] = await Promise.all([
    db.rows<HealthRow>(question(scope, sql`TRUE`, policy)), positionTextOf(scope, db), limitsByCircuit(scope, Date.now(), db),
  ])
  return rows.map((row) => healthJson(row, position, limits.get(row.circuit_id)))
}

/** How one circuit stands. */
export async function getHealth(scope: Scope, circuitId: number, db: Db = database()): Promise<CircuitHealth | undefined> {
  const policy = await currentPolicy(scope, db)
  const [row, position, limits] = await Promise.all([
    db.row<HealthRow>(question(scope, sql`h.circuit_id = ${circuitId}`, policy)), positionTextOf(scope, db), limitsByCircuit(scope, Date.now(), db),
  ])
  return row && healthJson(row, position, limits.get(circuitId))
}
