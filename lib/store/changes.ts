import { explain, type Assessment } from '@/lib/condition'
import { mvaOf } from '@/lib/condition/current-limit'
import { FLAG_WORDS } from '@/lib/condition/words'
import { CHANGE_KINDS, type ChangeKind, type ChangePart, type ChangesJson, type ItemOf, type PartOf } from '@/lib/contract/changes'
import { localText } from '@/lib/units/local-text'
import { fromCursor, pageOf } from './cursor'
import { positionTextOf, type PositionRow } from './position'
import { narrowed, type Scope } from './scope'
import { getSettings } from './settings'
import {
  advisedMoved, classesChanged, classesCleared, conflictsArisen, countOfChanges, directionsOf, limitsMoved, pageOfChanges, placementsWaiting, readingsCome, repairsProved, type ChangeQuestion,
} from './sql/changes'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'
import { listUrgent, noticesMoved } from './urgent'

export interface ChangesAsked {
  /** Nothing that was there at this moment is told. */
  since: Date
  /** Absent: everything within the scope. */
  circuitIds?: readonly number[]
  /** Absent: all. */
  kinds?: readonly ChangeKind[]
  /** Continues the one kind that is asked for. */
  cursor?: string
  /** Of each kind; 1 … 500, default 100. */
  limit?: number
}

/** What changed since a moment: classes, notices, conflicts, limits, decisions, repairs, readings, and what waits for a person now. */
export async function listChanges(scope: Scope, asked: ChangesAsked, db: Db = database()): Promise<ChangesJson> {
  const { since, circuitIds, kinds = CHANGE_KINDS, cursor, limit = 100 } = asked
  const of = circuitIds ? narrowed(scope, circuitIds) : scope
  const page = new Page(of, since, cursor, limit, db)
  const now = await db.row<{ now: Date }>(sql`SELECT now() AS now`)
  const parts = await Promise.all(CHANGE_KINDS.filter((kind) => kinds.includes(kind)).map((kind) => PARTS[kind](of, since, page, db)))
  return { since: since.toISOString(), as_of: (now?.now ?? new Date()).toISOString(), parts }
}

class Page {
  constructor(
    private readonly scope: Scope, private readonly since: Date, private readonly cursor: string | undefined, private readonly limit: number, private readonly db: Db,
  ) {}

  /** One page of a list with how many all of them hold. */
  async of<Row extends object>(kind: ChangeKind, question: ChangeQuestion): Promise<{ count: number; rows: Row[]; next_cursor: string | null }> {
    const asked = ['changes', kind, this.scope.key, this.since.toISOString()]
    const after = fromCursor(this.cursor, question.keys.map(({ type }) => type), asked)
    const [rows, counted] = await Promise.all([
      this.db.rows<Row & { sort_keys: (string | number)[] }>(pageOfChanges(question, after, this.limit)), this.db.row<{ count: number }>(countOfChanges(question)),
    ])
    const { items, next_cursor } = pageOf(rows, this.limit, (row) => row.sort_keys, asked)
    return { count: counted?.count ?? 0, rows: items, next_cursor }
  }
}

type SpliceRow = PositionRow & { id: number; splice: string; circuit_id: number; circuit: string }
type RowOf<K extends ChangeKind, More = object, Made extends string = never> = SpliceRow & Omit<ItemOf<K>, 'position_text' | Made> & More

type ClassRow = RowOf<'class', { result: Assessment; found_at: string | null; found_ratio: number | null }, 'why'>
type ConflictRow = RowOf<'conflict', { codes: (keyof typeof FLAG_WORDS)[] }, 'flags'>
type LimitRow = RowOf<'limit', { voltage_kv: number | null }, 'mva'>

const PARTS: { [K in ChangeKind]: (scope: Scope, since: Date, page: Page, db: Db) => Promise<ChangePart & { kind: K }> } = {
  class: async (scope, since, page, db) => {
    const question = classesChanged(scope, since)
    const [{ rows, ...rest }, directions, position, settings] = await Promise.all([
      page.of<ClassRow>('class', question), db.row<PartOf<'class'>['directions']>(directionsOf(question)), positionTextOf(scope, db), getSettings(scope, db),
    ])
    const items = rows.map((row) => {
      const { result, found_at: foundAt, found_ratio: foundRatio } = row
      const shown = { class: row.to, held: row.held, foundRatio: foundRatio ?? undefined, foundAtMs: foundAt === null ? undefined : Date.parse(foundAt) }
      const { headline } = explain(result, { unitSystem: settings.unit_system, timeZone: settings.time_zone, shown })
      return {
        ...spliceOf(row, position), direction: row.direction, from: row.from, to: row.to, held: row.held, at: row.at, why: headline, cause: row.cause,
        import_id: row.import_id, file_name: row.file_name, policy_version: row.policy_version, decided: row.decided,
      }
    })
    return { ...part('class', rest, items), directions: directions ?? { rise: 0, lost: 0, fall: 0, new: 0 } }
  },
  notice: async (scope, since, page, db) => {
    const { rows, ...rest } = await page.of<{ id: number }>('notice', noticesMoved(scope, since))
    const notices = await listUrgent(scope, { noticeIds: rows.map(({ id }) => id) }, db)
    const byId = new Map(notices.map((notice) => [notice.notice_id, notice]))
    return part('notice', rest, rows.flatMap(({ id }) => byId.get(id) ?? []))
  },
  conflict: async (scope, since, page, db) => {
    const [{ rows, ...rest }, position, { unit_system: system }] = await Promise.all([
      page.of<ConflictRow>('conflict', conflictsArisen(scope, since)), positionTextOf(scope, db), getSettings(scope, db),
    ])
    return part('conflict', rest, rows.map((row) => ({
      ...spliceOf(row, position), class: row.class, held: row.held, at: row.at, file_name: row.file_name,
      flags: row.codes.map((code) => ({ code, text: localText(FLAG_WORDS[code], system) })),
    })))
  },
  advised: async (scope, since, page, db) => {
    const [{ rows, ...rest }, position] = await Promise.all([page.of<RowOf<'advised'>>('advised', advisedMoved(scope, since)), positionTextOf(scope, db)])
    return part('advised', rest, rows.map((row) => ({
      ...spliceOf(row, position), class: row.class, held: row.held, from_a: row.from_a, to_a: row.to_a, at: row.at, cause: row.cause, file_name: row.file_name, policy: row.policy,
    })))
  },
  limit: async (scope, since, page, db) => {
    const [{ rows, ...rest }, position] = await Promise.all([page.of<LimitRow>('limit', limitsMoved(scope, since)), positionTextOf(scope, db)])
    return part('limit', rest, rows.map((row) => ({
      ...spliceOf(row, position), limit_id: row.limit_id, step: row.step, at: row.at, by: row.by, line_a: row.line_a,
      mva: row.voltage_kv === null ? null : mvaOf(row.line_a, row.voltage_kv), why: row.why,
    })))
  },
  cleared: async (scope, since, page, db) => {
    const [{ rows, ...rest }, position] = await Promise.all([page.of<RowOf<'cleared'>>('cleared', classesCleared(scope, since)), positionTextOf(scope, db)])
    return part('cleared', rest, rows.map((row) => (
      { ...spliceOf(row, position), at: row.at, engineer: row.engineer, reason: row.reason, from: row.from, to: row.to, by: row.by })))
  },
  repair: async (scope, since, page, db) => {
    const [{ rows, ...rest }, position] = await Promise.all([page.of<RowOf<'repair'>>('repair', repairsProved(scope, since)), positionTextOf(scope, db)])
    return part('repair', rest, rows.map((row) => (
      { ...spliceOf(row, position), class: row.class, held: row.held, at: row.at, readings: row.readings, survey: row.survey, taken_at: row.taken_at })))
  },
  reading: async (scope, since, page) => {
    const { rows, ...rest } = await page.of<ItemOf<'reading'>>('reading', readingsCome(scope, since))
    return part('reading', rest, rows.map((row) => ({
      import_id: row.import_id, file_name: row.file_name, survey: row.survey, circuit_id: row.circuit_id, circuit: row.circuit, at: row.at, by: row.by, undone: row.undone,
      readings: row.readings, placed: row.placed, review: row.review, set_aside: row.set_aside,
    })))
  },
  waiting: async (scope, since, _page, db) => {
    const items = await db.rows<ItemOf<'waiting'>>(placementsWaiting(scope, since))
    return part('waiting', { count: items.reduce((sum, { count }) => sum + count, 0), next_cursor: null }, items)
  },
}

const part = <K extends ChangeKind>(kind: K, { count, next_cursor }: { count: number; next_cursor: string | null }, items: ItemOf<K>[]): PartOf<K> => (
  { kind, count, items, next_cursor } as unknown as PartOf<K>)

const spliceOf = (row: SpliceRow, position: (row: PositionRow) => string) => (
  { id: row.id, splice: row.splice, circuit_id: row.circuit_id, circuit: row.circuit, position_text: position(row) })
