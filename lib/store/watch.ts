import { nextStep } from '@/lib/condition/risk'
import type { Policy } from '@/lib/condition'
import type { ConditionClass } from '@/lib/condition/types'
import type { SavedView, SpliceOwner, WatchState } from '@/lib/contract/watch'
import { limitsOpenOf } from './limits'
import { crossingsOfSpan } from './risk'
import { onCircuit, type Scope } from './scope'
import { iso } from './sql/iso'
import { readingBehind, responseTime, shownSince } from './sql/response'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

interface Row extends Omit<WatchState, 'next' | 'limit_state'> {
  splice_id: number; class: ConditionClass; measured_class: ConditionClass; held: boolean; decided_on_load: boolean; shown_since: Date | null
}

/** What the watch list says of the degraded and worse among these splices, by number. */
export async function watchStatesOf(scope: Scope, spliceIds: readonly number[], policy: Policy, nowMs: number, db: Db = database()): Promise<Map<number, WatchState>> {
  if (spliceIds.length === 0) return new Map()
  const [rows, limits] = await Promise.all([
    db.rows<Row>(sql`
      SELECT state.splice_id, state.class, state.measured_class, state.held, state.load_share, state.limit_line_a AS advised_a, c.voltage_kv, coalesce(c.radial, FALSE) AS radial, c.mw,
        state.held AND EXISTS (SELECT FROM reading fr WHERE fr.id = state.found_reading_id AND fr.withdrawn) AS finding_withdrawn,
        (SELECT x.kind FROM ${crossingsOfSpan} ORDER BY x.line_distance_m LIMIT 1) AS crossing,
        CASE WHEN state.load_share IS NULL THEN NULL WHEN flow.contingency > coalesce(greatest(flow.last, flow.peak), 0) THEN 'contingency'
          WHEN flow.peak > coalesce(flow.last, 0) THEN 'peak' ELSE 'last' END AS load,
        o.owner, ${iso('o.taken_at')} AS taken_at, coalesce(notice.waits, FALSE) AS waits_for_call, ${iso('greatest(notice.told_at, call.at)')} AS called_at,
        coalesce(call.on_load, FALSE) AS decided_on_load, ${iso('due.at')} AS due_at, ${shownSince} AS shown_since
      FROM splice_state state JOIN splice s ON s.id = state.splice_id JOIN circuit c ON c.id = s.circuit_id
      JOIN section sec ON sec.id = s.section_id JOIN span sp ON sp.id = s.span_id
      LEFT JOIN splice_owner o ON o.splice_id = s.id
      CROSS JOIN LATERAL (SELECT
        (SELECT x.current_a FROM section_load x WHERE x.section_id = s.section_id AND x.flow = 'carried' AND x.quality IS DISTINCT FROM 'suspect' ORDER BY x.taken_at DESC LIMIT 1) AS last,
        (SELECT x.current_a FROM section_load x WHERE x.section_id = s.section_id AND x.flow = 'expected-peak' ORDER BY x.taken_at DESC LIMIT 1) AS peak,
        (SELECT x.current_a FROM section_load x WHERE x.section_id = s.section_id AND x.flow = 'post-contingency' ORDER BY x.taken_at DESC LIMIT 1) AS contingency) flow
      CROSS JOIN LATERAL (
        SELECT bool_or(u.acknowledged_at IS NULL) AS waits, max(coalesce(u.told_at, u.acknowledged_at)) AS told_at
        FROM placement p JOIN urgent_notice u ON u.reading_id = p.reading_id AND (p.current OR u.placement_id = p.id) WHERE p.splice_id = s.id) notice
      CROSS JOIN LATERAL (
        SELECT max(e.at) AS at, bool_or(e.decided && '{load-relief,outage}' AND e.noted_at >= state.critical_since) AS on_load
        FROM call_entry e WHERE e.splice_id = s.id AND e.kind = 'call' AND e.struck_at IS NULL) call
      LEFT JOIN LATERAL (${readingBehind}) behind ON TRUE
      CROSS JOIN LATERAL (SELECT ${shownSince} + ${responseTime(policy)} - greatest(coalesce(behind.entered_at - behind.taken_at, '0'), '0') AS at) due
      WHERE state.splice_id = ANY(${spliceIds}::int[]) AND state.class IN ('degraded', 'urgent', 'critical') AND ${onCircuit(scope, 'state.circuit_id')}`),
    limitsOpenOf(scope, spliceIds, nowMs, db),
  ])
  const standing = new Map(limits.map((limit) => [limit.splice_id, limit.standing]))
  return new Map(rows.flatMap(({ splice_id: spliceId, class: shown, measured_class: measuredClass, held, decided_on_load: decidedOnLoad, shown_since: since, due_at: dueAt, ...row }) => {
    const next = nextStep({ class: shown, measuredClass, held, waitsForCall: row.waits_for_call, decidedOnLoad })
    const limit = standing.get(spliceId) ?? 'none'
    return next === null ? [] : [[spliceId, { ...row, next, due_at: dueOf(next, { class: shown, since, dueAt }, policy), limit_state: limit === 'lifted' ? 'none' : limit }] as const]
  }))
}

/** A call and a decision on load have hours from when the class was first shown, of a critical splice alone; what mends it has the time of its class. */
function dueOf(next: WatchState['next'], of: { class: ConditionClass; since: Date | null; dueAt: string | null }, policy: Policy): string | null {
  if (next !== 'call-control-room' && next !== 'decide-load-or-outage') return of.dueAt
  if (of.class !== 'critical' || of.since === null) return null
  return new Date(of.since.getTime() + policy.response.criticalCallHours * 3_600_000).toISOString()
}

/** Who has taken a splice; nobody where there is no row. */
export async function ownerOf(scope: Scope, spliceId: number, db: Db = database()): Promise<SpliceOwner> {
  const row = await db.row<SpliceOwner>(sql`
    SELECT o.owner, ${iso('o.taken_at')} AS taken_at FROM splice_owner o JOIN splice s ON s.id = o.splice_id
    WHERE o.splice_id = ${spliceId} AND ${onCircuit(scope, 's.circuit_id')}`)
  return row ?? { owner: null, taken_at: null }
}

/** How many splices in service within the scope it was: one or none. */
export const putOwner = (scope: Scope, spliceId: number, owner: string, actor: string, db: Db): Promise<number> => db.run(sql`
  INSERT INTO splice_owner (splice_id, owner, noted_by)
  SELECT s.id, ${owner}::text, ${actor}::text FROM splice s WHERE s.id = ${spliceId} AND s.removed_on IS NULL AND ${onCircuit(scope, 's.circuit_id')}
  ON CONFLICT (splice_id) DO UPDATE SET owner = excluded.owner, noted_by = excluded.noted_by, taken_at = now()`)

export const dropOwner = (scope: Scope, spliceId: number, db: Db): Promise<number> => db.run(sql`
  DELETE FROM splice_owner o USING splice s WHERE s.id = o.splice_id AND s.id = ${spliceId} AND ${onCircuit(scope, 's.circuit_id')}`)

const VIEW = sql`id, name, query, ${iso('created_at')} AS created_at, created_by`

/** By name; each scope has its own. */
export const listViews = (scope: Scope, db: Db = database()): Promise<SavedView[]> =>
  db.rows<SavedView>(sql`SELECT ${VIEW} FROM saved_view WHERE scope = ${scope.key} ORDER BY lower(name), id`)

/** Undefined where the name is taken. */
export const insertView = (scope: Scope, view: { name: string; query: string; actor: string }, db: Db): Promise<SavedView | undefined> => db.row<SavedView>(sql`
  INSERT INTO saved_view (scope, name, query, created_by) VALUES (${scope.key}, ${view.name}, ${view.query}, ${view.actor})
  ON CONFLICT (scope, lower(name)) DO NOTHING RETURNING ${VIEW}`)

export const deleteView = (scope: Scope, id: number, db: Db): Promise<SavedView | undefined> =>
  db.row<SavedView>(sql`DELETE FROM saved_view WHERE id = ${id} AND scope = ${scope.key} RETURNING ${VIEW}`)
