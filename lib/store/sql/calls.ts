import { onCircuit, onPlacement, type Scope } from '../scope'
import { iso } from './iso'
import { placeOfNotice } from './urgent'
import { join, sql, type Sql } from './sql'

export interface WhichCalls {
  circuitIds?: readonly number[]
  spliceId?: number
  entryId?: number
  sinceMs?: number
  /** Those after this one, newest first. */
  after?: { atMs: number; key: string } | null
  limit: number
}

const ofPlace = sql`back.label AS structure_back, ahead.label AS structure_ahead, s.offset_m, s.line_distance_m, s.phase, s.position, s.circuit_side, s.subconductor`
const PLACE = sql`
  LEFT JOIN circuit c ON c.id = s.circuit_id LEFT JOIN span sp ON sp.id = s.span_id
  LEFT JOIN structure back ON back.id = sp.structure_back_id LEFT JOIN structure ahead ON ahead.id = sp.structure_ahead_id`

/**
 * The log, newest first: calls and looks that were noted, and what the control room was told of urgent notices, once each: two notices of one
 * reading that were told together are one call, and those that a noted call answered are that call.
 */
export const callsQuestion = (scope: Scope, which: WhichCalls): Sql => sql`
  SELECT x.*, ${iso('x.moment')} AS at FROM (
    ${which.entryId === undefined ? sql`(${noted(scope, which)}) UNION ALL (${told(scope, which)})` : noted(scope, which)}
  ) x
  WHERE ${which.after ? sql`(x.moment, x.key) < (to_timestamp(${which.after.atMs / 1000}::float8), ${which.after.key}::text)` : sql`TRUE`}
  ORDER BY x.moment DESC, x.key DESC LIMIT ${which.limit}`

const since = (which: WhichCalls, moment: Sql): Sql => sql`
  ${which.sinceMs === undefined ? sql`TRUE` : sql`${moment} >= to_timestamp(${which.sinceMs / 1000}::float8)`}
  AND ${which.after ? sql`${moment} <= to_timestamp(${which.after.atMs / 1000}::float8)` : sql`TRUE`}`

const noted = (scope: Scope, which: WhichCalls): Sql => sql`
  SELECT 'call-' || e.id AS key, e.id, e.kind, e.splice_id, coalesce(s.label, 'found ' || s.id) AS splice, s.circuit_id, c.name AS circuit, ${ofPlace},
    e.class, shown.class AS class_now, e.by_name AS by, e.whom, e.at AS moment, e.decided, e.nothing_why, e.note,
    EXISTS (SELECT FROM urgent_notice u WHERE u.call_id = e.id) AS told_control_room,
    ${iso('e.noted_at')} AS noted_at, e.noted_by, ${iso('e.struck_at')} AS struck_at, e.struck_by, e.struck_why
  FROM call_entry e JOIN splice s ON s.id = e.splice_id LEFT JOIN splice_state shown ON shown.splice_id = s.id ${PLACE}
  WHERE ${onCircuit(scope, 's.circuit_id')} AND ${since(which, sql`e.at`)}
    AND ${which.spliceId === undefined ? sql`TRUE` : sql`e.splice_id = ${which.spliceId}`} AND ${which.entryId === undefined ? sql`TRUE` : sql`e.id = ${which.entryId}`}
    AND ${which.circuitIds === undefined ? sql`TRUE` : sql`s.circuit_id = ANY(${which.circuitIds}::int[])`}`

/** Where a notice may be on several circuits, those who look after any of them read of it. */
const told = (scope: Scope, which: WhichCalls): Sql => sql`
  SELECT * FROM (
    SELECT DISTINCT ON (coalesce(u.reading_id, -u.id), u.acknowledged_at)
      'told-' || u.id AS key, u.id, 'told' AS kind, p.splice_id, coalesce(s.label, 'found ' || s.id) AS splice,
      coalesce(s.circuit_id, (u.circuits->0->>'circuit_id')::int) AS circuit_id, coalesce(c.name, u.circuits->0->>'circuit') AS circuit, ${ofPlace},
      u.class, shown.class AS class_now, u.acknowledged_by AS by, u.told_to AS whom, coalesce(u.told_at, u.acknowledged_at) AS moment, '{}'::text[] AS decided, NULL AS nothing_why, NULL AS note,
      TRUE AS told_control_room, ${iso('u.acknowledged_at')} AS noted_at, u.acknowledged_by AS noted_by, NULL AS struck_at, NULL AS struck_by, NULL AS struck_why
    FROM urgent_notice u LEFT JOIN placement p ON ${placeOfNotice} LEFT JOIN splice s ON s.id = p.splice_id LEFT JOIN splice_state shown ON shown.splice_id = s.id ${PLACE}
    WHERE u.acknowledged_at IS NOT NULL AND u.call_id IS NULL AND ${since(which, sql`coalesce(u.told_at, u.acknowledged_at)`)}
      AND ${scope.circuitIds === null ? sql`TRUE` : sql`(p.id IS NOT NULL AND ${onPlacement(scope, 'p')} OR p.id IS NULL AND ${mayBeOn(scope.circuitIds)})`}
      AND ${which.spliceId === undefined ? sql`TRUE` : sql`p.splice_id = ${which.spliceId}`}
      AND ${which.circuitIds === undefined ? sql`TRUE` : sql`(s.circuit_id = ANY(${which.circuitIds}::int[]) OR s.id IS NULL AND ${mayBeOn(which.circuitIds)})`}
    ORDER BY coalesce(u.reading_id, -u.id), u.acknowledged_at, -class_rank(u.class), u.id
  ) once`

const mayBeOn = (circuitIds: readonly number[]): Sql => sql`
  EXISTS (SELECT FROM jsonb_array_elements(u.circuits) may WHERE (may->>'circuit_id')::int IN (${join(circuitIds.length > 0 ? [...circuitIds] : [0])}))`

/** Urgent and critical splices in service, with when each was last looked at: a reading of it, or a look that was noted and not struck. */
export const acuteSplices = (scope: Scope): Sql => sql`
  SELECT st.splice_id, st.class, st.ratio, st.last_reading_at, greatest(st.last_reading_at, (
    SELECT max(e.at) FROM call_entry e WHERE e.splice_id = st.splice_id AND e.kind = 'look' AND e.struck_at IS NULL)) AS last_look
  FROM splice_state st WHERE st.class IN ('urgent', 'critical') AND ${onCircuit(scope, 'st.circuit_id')}`
