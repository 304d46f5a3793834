import type { CursorKey } from '../cursor'
import { spliceColumns, spliceTables } from './splice-summary'
import { join, name, sql, type Sql } from './sql'

/** risk: as `lib/condition/risk.ts` has it. worst: worst class first, then the highest ratio. unsound: the same with what is not known before what is sound. place: along each circuit. recent: last read first. */
export const SPLICE_SORTS = ['risk', 'worst', 'unsound', 'place', 'recent'] as const
export type SpliceSort = (typeof SPLICE_SORTS)[number]

// Written so that every key rises: one row comparison then continues a page, and the first can use its index.
const KEYS: Record<SpliceSort, { expressions: string[]; types: CursorKey[] }> = {
  risk: {
    expressions: ['-class_rank(st.class)', '-st.risk', 'read_year(st.last_reading_at)', '-coalesce(st.ratio, 0)', 'st.splice_id'],
    types: ['int', 'int', 'int', 'float8', 'int'],
  },
  worst: { expressions: ['-class_rank(st.class)', '-coalesce(st.ratio, 0)', 'st.splice_id'], types: ['int', 'float8', 'int'] },
  unsound: { expressions: ["CASE st.class WHEN 'unknown' THEN -1 WHEN 'sound' THEN 0 ELSE -class_rank(st.class) END", '-coalesce(st.ratio, 0)', 'st.splice_id'], types: ['int', 'float8', 'int'] },
  place: { expressions: ['c.name', 'sec.name', 's.line_distance_m', 's.id'], types: ['text', 'text', 'float8', 'int'] },
  recent: { expressions: ['-coalesce(extract(epoch FROM st.last_reading_at), 0)::float8', 's.id'], types: ['float8', 'int'] },
}

export const spliceSortKeys = (sort: SpliceSort): readonly CursorKey[] => KEYS[sort].types

/** One page and one row more; `sort_keys` of the last row shown continue it. */
export function spliceListQuestion(condition: Sql, sort: SpliceSort, after: (string | number)[] | null, limit: number): Sql {
  const { expressions, types } = KEYS[sort]
  const keys = name(expressions.join(', '))
  return sql`
    SELECT ${spliceColumns}, jsonb_build_array(${keys}) AS sort_keys
    FROM ${spliceTables}
    WHERE ${condition} AND ${after ? continues(expressions, types, after) : sql`TRUE`}
    ORDER BY ${keys}
    LIMIT ${limit + 1}`
}

function continues(expressions: string[], types: string[], after: (string | number)[]): Sql {
  const values = after.map((key, i) => sql`${key}::${name(types[i] ?? 'text')}`)
  return sql`(${name(expressions.join(', '))}) > (${join(values)})`
}
