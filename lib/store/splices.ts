import type { ClassCounts, SpliceList, SpliceSummary } from '@/lib/contract/contract'
import type { SpliceFilter } from '@/lib/contract/filter'
import { fromCursor, pageOf } from './cursor'
import type { Scope } from './scope'
import { spliceCounts } from './sql/splice-counts'
import { spliceCondition, type Bbox } from './sql/splice-filter'
import { spliceListQuestion, spliceSortKeyCount, type SpliceSort } from './sql/splice-list'
import { database, type Db } from './transaction'

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
  const limit = Math.min(Math.max(options.limit ?? 100, 1), 500)
  const condition = spliceCondition(scope, filter, bbox)
  const after = fromCursor(options.cursor, spliceSortKeyCount(sort))
  const [rows, counts, all] = await Promise.all([
    db.rows<SpliceSummary & { sort_keys: (string | number)[] }>(spliceListQuestion(condition, sort, after, limit)),
    countSplices(scope, filter, bbox, db),
    countSplices(scope, {}, undefined, db),
  ])
  const page = pageOf(rows, limit, (row) => row.sort_keys)
  return {
    items: page.items.map(({ sort_keys: _, ...splice }) => splice),
    next_cursor: page.next_cursor,
    total: Object.values(counts).reduce((sum, n) => sum + n, 0),
    counts,
    hidden: { urgent: all.urgent - counts.urgent, critical: all.critical - counts.critical },
  }
}

/** Splices in service per class. */
export async function countSplices(scope: Scope, filter: SpliceFilter = {}, bbox?: Bbox, db: Db = database()): Promise<ClassCounts> {
  return (await db.row<ClassCounts>(spliceCounts(spliceCondition(scope, filter, bbox)))) ?? NONE
}
