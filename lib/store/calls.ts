import { peakPeriodsAt, type PeakMoment } from '@/lib/condition/peak-periods'
import type { CallEntryJson, LookAgainJson } from '@/lib/contract/calls'
import { MOST_OF_A_PAGE } from '@/lib/contract/page'
import { ZoneClock } from '@/lib/intake/cells/zone'
import { fromCursor, pageOf } from './cursor'
import { positionTextOf, type PositionRow } from './position'
import { onCircuit, type Scope } from './scope'
import { getSettings } from './settings'
import { acuteSplices, callsQuestion, type WhichCalls } from './sql/calls'
import { iso } from './sql/iso'
import { placeOfNotice } from './sql/urgent'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

/** Of one splice nobody reads further back on its sheet. */
const OF_SPLICE = 100
const SHOWN_ACUTE = 200

type Row = Omit<CallEntryJson, 'position_text'> & PositionRow & { moment: Date }

async function ask(scope: Scope, which: WhichCalls, db: Db): Promise<CallEntryJson[]> {
  const [rows, position] = await Promise.all([db.rows<Row>(callsQuestion(scope, which)), positionTextOf(scope, db)])
  return rows.map((row) => {
    const { structure_back, structure_ahead, offset_m, line_distance_m, phase, position: at, circuit_side, subconductor, moment: _, ...entry } = row
    const place = { structure_back, structure_ahead, offset_m, line_distance_m, phase, position: at, circuit_side, subconductor }
    return { ...entry, position_text: row.splice_id === null ? null : position(place) }
  })
}

export interface CallLogOptions { circuitIds?: number[]; since?: string; cursor?: string; /** 1 … 500, default 100. */ limit?: number }

/** A page of the log, newest first. @throws BadCursor */
export async function listCalls(scope: Scope, options: CallLogOptions = {}, db: Db = database()): Promise<{ items: CallEntryJson[]; next_cursor: string | null }> {
  const limit = Math.min(Math.max(options.limit ?? 100, 1), MOST_OF_A_PAGE)
  const asked = ['calls', options.circuitIds?.join(), options.since]
  const after = fromCursor(options.cursor, ['float8', 'text'], asked)
  const rows = await ask(scope, {
    circuitIds: options.circuitIds, sinceMs: options.since === undefined ? undefined : Date.parse(options.since),
    after: after && { atMs: Number(after[0]), key: String(after[1]) }, limit: limit + 1,
  }, db)
  return pageOf(rows, limit, (row) => [Date.parse(row.at), row.key], asked)
}

/** The log of one splice, newest first. */
export const callsOfSplice = (scope: Scope, spliceId: number, db: Db = database()): Promise<CallEntryJson[]> => ask(scope, { spliceId, limit: OF_SPLICE }, db)

/** A call or look that was noted; undefined for none that the scope may see. */
export const callById = async (scope: Scope, id: number, db: Db = database()): Promise<CallEntryJson | undefined> =>
  (await ask(scope, { entryId: id, limit: 1 }, db))[0]

export interface NewCall {
  spliceId: number; kind: 'call' | 'look'; by: string; whom: string | null; /** Null: now. */ at: string | null
  decided: readonly string[]; nothingWhy: string | null; note: string | null; actor: string
}

/** Undefined where there is no such splice within the scope. */
export async function insertCall(scope: Scope, call: NewCall, db: Db): Promise<number | undefined> {
  return (await db.row<{ id: number }>(sql`
    INSERT INTO call_entry (splice_id, kind, class, by_name, whom, at, decided, nothing_why, note, noted_by)
    SELECT s.id, ${call.kind}::text, coalesce(st.class, 'unknown'), ${call.by}::text, ${call.whom}::text, coalesce(${call.at}::timestamptz, now()), ${call.decided}::text[],
      ${call.nothingWhy}::text, ${call.note}::text, ${call.actor}::text
    FROM splice s LEFT JOIN splice_state st ON st.splice_id = s.id WHERE s.id = ${call.spliceId} AND ${onCircuit(scope, 's.circuit_id')} RETURNING id`))?.id
}

export const strikeCall = (id: number, by: string, why: string, db: Db): Promise<number> =>
  db.run(sql`UPDATE call_entry SET struck_at = now(), struck_by = ${by}, struck_why = ${why} WHERE id = ${id} AND struck_at IS NULL`)

/** The notices of a splice that wait for the control room are told by a call that was noted. How many waited. */
export const tellByCall = (callId: number, spliceId: number, actor: string, db: Db): Promise<number> => db.run(sql`
  UPDATE urgent_notice u SET acknowledged_at = now(), acknowledged_by = ${actor}, told_to = e.whom, told_at = e.at, call_id = e.id
  FROM call_entry e
  WHERE e.id = ${callId} AND u.acknowledged_at IS NULL AND EXISTS (SELECT FROM placement p WHERE ${placeOfNotice} AND p.splice_id = ${spliceId})`)

/** A struck call told nobody: what it answered waits again. How many do. */
export const untellByCall = (callId: number, db: Db): Promise<number> => db.run(sql`
  UPDATE urgent_notice SET acknowledged_at = NULL, acknowledged_by = NULL, told_to = NULL, told_at = NULL, call_id = NULL WHERE call_id = ${callId}`)

type AcuteRow = Omit<LookAgainJson['items'][number], 'position_text'> & PositionRow

/** What comes back at each peak-load period until it is repaired: the urgent and critical that nobody looked at since the period began. */
export async function lookAgainNow(scope: Scope, nowMs: number, db: Db = database()): Promise<LookAgainJson> {
  const { peak_periods: periods, time_zone: timeZone } = await getSettings(scope, db)
  const clock = new ZoneClock(timeZone)
  const { current, next } = peakPeriodsAt(periods, (wallMs) => clock.toUtc(wallMs).atMs, nowMs)
  // Between periods nobody has looked at them in the one to come.
  const isDue = current === null ? sql`TRUE` : sql`(a.last_look IS NULL OR a.last_look < to_timestamp(${current.startMs / 1000}::float8))`
  const [counts, rows, position] = await Promise.all([
    db.row<{ acute: number; looked: number }>(sql`
      WITH a AS (${acuteSplices(scope)}) SELECT count(*)::int AS acute, count(*) FILTER (WHERE NOT ${isDue})::int AS looked FROM a`),
    db.rows<AcuteRow>(sql`
      WITH a AS (${acuteSplices(scope)}), due AS (
        SELECT * FROM a WHERE ${isDue} ORDER BY -class_rank(a.class), a.ratio DESC NULLS LAST, a.splice_id LIMIT ${SHOWN_ACUTE}
      )
      SELECT due.splice_id, coalesce(s.label, 'found ' || s.id) AS splice, s.circuit_id, c.name AS circuit, due.class, due.ratio, s.lon, s.lat,
        back.label AS structure_back, ahead.label AS structure_ahead, s.offset_m, s.line_distance_m, s.phase, s.position, s.circuit_side, s.subconductor,
        ${iso('due.last_look')} AS last_look_at,
        (SELECT ${iso('max(e.at)')} FROM call_entry e WHERE e.splice_id = s.id AND e.kind = 'call' AND e.struck_at IS NULL) AS last_call_at,
        (SELECT ${iso('max(coalesce(u.told_at, u.acknowledged_at))')} FROM placement p
          JOIN urgent_notice u ON u.reading_id = p.reading_id AND (p.current OR u.placement_id = p.id) WHERE p.splice_id = s.id AND u.acknowledged_at IS NOT NULL) AS last_told_at, ${iso('due.last_reading_at')} AS last_reading_at
      FROM due JOIN splice s ON s.id = due.splice_id
      JOIN circuit c ON c.id = s.circuit_id JOIN span sp ON sp.id = s.span_id
      LEFT JOIN structure back ON back.id = sp.structure_back_id LEFT JOIN structure ahead ON ahead.id = sp.structure_ahead_id
      ORDER BY -class_rank(due.class), due.ratio DESC NULLS LAST, due.splice_id`),
    positionTextOf(scope, db),
  ])
  return {
    current: current && asJson(current), next: next && asJson(next), acute: counts?.acute ?? 0, looked: counts?.looked ?? 0,
    items: rows.map(({ structure_back, structure_ahead, offset_m, line_distance_m, phase, position: at, circuit_side, subconductor, ...row }) => ({
      ...row, position_text: position({ structure_back, structure_ahead, offset_m, line_distance_m, phase, position: at, circuit_side, subconductor }),
    })),
  }
}

const asJson = ({ startMs, endMs }: PeakMoment) => ({ from: new Date(startMs).toISOString(), to: new Date(endMs).toISOString() })
