import { classRank } from '@/lib/condition'
import type { ClassCounts, SpliceList, SpliceSummary } from '@/lib/contract/contract'
import { filterToQuery, type SpliceFilter } from '@/lib/contract/filter'
import { MOST_OF_A_PAGE } from '@/lib/contract/page'
import type { WatchState } from '@/lib/contract/watch'
import { fromCursor, pageOf } from './cursor'
import { currentPolicy } from './policies'
import { onCircuit, type Scope } from './scope'
import { rolledUpCounts, rolledUpSoundPast, soundPastCount, spliceCounts } from './sql/splice-counts'
import { circuitCondition, spliceCondition, type Bbox } from './sql/splice-filter'
import { splicesToExport } from './sql/splice-export'
import { spliceListQuestion, spliceSortKeys, type SpliceSort } from './sql/splice-list'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'
import { watchStatesOf } from './watch'

export interface SpliceListOptions {
  filter?: SpliceFilter
  bbox?: Bbox
  cursor?: string
  /** 1 … 500, default 100. */
  limit?: number
  sort?: SpliceSort
}

const NONE: ClassCounts = { sound: 0, watch: 0, degraded: 0, urgent: 0, critical: 0, unknown: 0 }

/** A page of splices in service, how many of each class the filter and box let through, and what they hide of urgent and critical. */
export async function listSplices(scope: Scope, options: SpliceListOptions = {}, db: Db = database()): Promise<SpliceList> {
  const { filter = {}, bbox, sort = 'worst' } = options
  const limit = Math.min(Math.max(options.limit ?? 100, 1), MOST_OF_A_PAGE)
  const condition = spliceCondition(scope, filter, bbox)
  const asked = ['splices', filterToQuery(filter), bbox?.join(), sort]
  const after = fromCursor(options.cursor, spliceSortKeys(sort), asked)
  const [rows, ofAnyClass, all, soundPast] = await Promise.all([
    db.rows<SpliceSummary & { sort_keys: (string | number)[] }>(spliceListQuestion(condition, sort, after, limit)),
    countSplices(scope, { ...filter, classes: undefined }, bbox, db),
    countSplices(scope, {}, undefined, db),
    countSoundPast(scope, { ...filter, classes: undefined }, bbox, db),
  ])
  const counts = ofClasses(ofAnyClass, filter.classes)
  const page = pageOf(rows, limit, (row) => row.sort_keys, asked)
  const watched = page.items.filter((splice) => classRank(splice.class) >= classRank('degraded')).map(({ id }) => id)
  const watch = await watchStatesOf(scope, watched, await currentPolicy(scope, db), Date.now(), db)
  return {
    items: page.items.map(({ sort_keys: _, ...splice }) => ({ ...splice, watch: watch.get(splice.id) ?? null })),
    next_cursor: page.next_cursor,
    total: Object.values(counts).reduce((sum, n) => sum + n, 0),
    counts,
    counts_of_any_class: ofAnyClass,
    sound_past_re_measure: soundPast,
    hidden: { urgent: all.urgent - counts.urgent, critical: all.critical - counts.critical },
  }
}

/** A splice as it leaves in a file. */
export interface ExportedSplice extends SpliceSummary {
  /** Null: found by a survey, and named by nobody. */
  label: string | null
  /** The lowest limit that operations accepted and nobody lifted, A per phase; null where there is none. */
  limit_line_a: number | null
  limit_in_force_from: string | null
  limit_review_by: string | null
  /** What its sheet advises, A per phase; null where no current is given for it. */
  advised_line_a: number | null
  /** Standard uncertainty of `ratio`; null where it is not that of a measured side. */
  ratio_u: number | null
  /** What the watch list says of it; null for one better than degraded. */
  watch: WatchState | null
}

const READ_AHEAD = 2_000

/** Every splice in service that the filter and box let through, however many: memory is that of a page. */
export async function* splicesToWrite(scope: Scope, filter: SpliceFilter = {}, bbox?: Bbox, db: Db = database()): AsyncGenerator<ExportedSplice> {
  const condition = spliceCondition(scope, filter, bbox)
  for (let afterId = 0; ;) {
    const rows = await db.rows<Omit<ExportedSplice, 'watch'>>(splicesToExport(condition, afterId, READ_AHEAD))
    const watch = await watchStatesOf(scope, rows.map(({ id }) => id), await currentPolicy(scope, db), Date.now(), db)
    for (const row of rows) yield { ...row, watch: watch.get(row.id) ?? null }
    if (rows.length < READ_AHEAD) return
    afterId = rows.at(-1)?.id ?? afterId
  }
}

/** Splices in service per class. What a filter by class, circuit and voltage lets through, as at every opening, is counted already in the roll-up of each circuit. */
export async function countSplices(scope: Scope, { classes, ...filter }: SpliceFilter = {}, bbox?: Bbox, db: Db = database()): Promise<ClassCounts> {
  const question = isRolledUp(filter, bbox) ? rolledUpCounts(circuitCondition(scope, filter)) : spliceCounts(spliceCondition(scope, filter, bbox))
  return ofClasses(await db.row<ClassCounts>(question) ?? NONE, classes)
}

/** Of counts of every class those that a filter keeps. */
const ofClasses = (counts: ClassCounts, classes: SpliceFilter['classes']): ClassCounts =>
  (classes === undefined ? counts : { ...NONE, ...Object.fromEntries(classes.map((name) => [name, counts[name]])) })

/** Whether the roll-ups of circuits hold what this filter, whatever its classes, lets through. */
const isRolledUp = ({ circuitIds: _, voltagesKv: __, classes: ___, ...rest }: SpliceFilter, bbox: Bbox | undefined): boolean =>
  bbox === undefined && Object.values(rest).every((values) => values === undefined)

/** Of the sound ones that the filter lets through, how many nobody measured again in time. */
async function countSoundPast(scope: Scope, filter: SpliceFilter, bbox: Bbox | undefined, db: Db): Promise<number> {
  const question = isRolledUp(filter, bbox) ? rolledUpSoundPast(circuitCondition(scope, filter)) : soundPastCount(spliceCondition(scope, filter, bbox))
  return (await db.row<{ n: number }>(question))?.n ?? 0
}

/** Every splice in service within the scope. */
export async function splicesInService(scope: Scope, db: Db = database()): Promise<{ id: number; circuit_id: number }[]> {
  return db.rows<{ id: number; circuit_id: number }>(sql`
    SELECT s.id, s.circuit_id FROM splice s WHERE s.removed_on IS NULL AND ${onCircuit(scope, 's.circuit_id')} ORDER BY s.id`)
}

/** Splices in service on these sections. */
export async function splicesOfSections(scope: Scope, sectionIds: readonly number[], db: Db): Promise<number[]> {
  const rows = await db.rows<{ id: number }>(sql`
    SELECT s.id FROM splice s WHERE s.section_id = ANY(${sectionIds}::int[]) AND s.removed_on IS NULL AND ${onCircuit(scope, 's.circuit_id')} ORDER BY s.id`)
  return rows.map((row) => row.id)
}

/** Where a splice in service hangs. */
export interface SplicePlace { id: number; circuit_id: number; section_id: number; phase: string | null }

export async function splicePlace(scope: Scope, id: number, db: Db): Promise<SplicePlace | undefined> {
  return db.row<SplicePlace>(sql`
    SELECT s.id, s.circuit_id, s.section_id, s.phase FROM splice s
    WHERE s.id = ${id} AND s.removed_on IS NULL AND ${onCircuit(scope, 's.circuit_id')}`)
}

/** What these splices are called. */
export async function spliceNames(scope: Scope, ids: readonly number[], db: Db = database()): Promise<Map<number, string>> {
  const rows = await db.rows<{ id: number; splice: string }>(sql`
    SELECT s.id, coalesce(s.label, 'found ' || s.id) AS splice FROM splice s WHERE s.id = ANY(${ids}::int[]) AND ${onCircuit(scope, 's.circuit_id')}`)
  return new Map(rows.map((row) => [row.id, row.splice]))
}

export async function circuitsOfSplices(scope: Scope, ids: readonly number[], db: Db = database()): Promise<number[]> {
  const rows = await db.rows<{ circuit_id: number }>(sql`
    SELECT DISTINCT s.circuit_id FROM splice s WHERE s.id = ANY(${ids}::int[]) AND ${onCircuit(scope, 's.circuit_id')}`)
  return rows.map((row) => row.circuit_id)
}

export async function circuitsOfSections(scope: Scope, ids: readonly number[], db: Db = database()): Promise<number[]> {
  const rows = await db.rows<{ circuit_id: number }>(sql`
    SELECT DISTINCT circuit_id FROM section WHERE id = ANY(${ids}::int[]) AND ${onCircuit(scope, 'circuit_id')}`)
  return rows.map((row) => row.circuit_id)
}
