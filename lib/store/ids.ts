import { mustCoverEverything, type Scope } from './scope'
import { name, sql } from './sql/sql'
import type { Db } from './transaction'

export type NumberedTable = 'assessment' | 'splice' | 'span' | 'structure' | 'urgent_notice'

/** Takes ids for rows that are about to be written by COPY, so that rows of other tables can point at them. */
export async function reserveIds(db: Db, table: NumberedTable, count: number): Promise<number[]> {
  if (count === 0) return []
  const row = await db.row<{ ids: number[] }>(
    sql`SELECT array_agg(nextval(${name(`'${table}_id_seq'`)})::int) AS ids FROM generate_series(1, ${count}::int)`)
  return row?.ids ?? []
}

/** The first of as many ids in a row. Only for tables into which nobody but the holder of the import lock writes. */
export async function reserveIdsInARow(scope: Scope, db: Db, table: 'reading', count: number): Promise<number> {
  mustCoverEverything(scope)
  const sequence = name(`'${table}_id_seq'`)
  const row = await db.row<{ last: number }>(sql`SELECT setval(${sequence}, nextval(${sequence}) + ${count}::int - 1)::int AS last`)
  return (row?.last ?? 0) - count + 1
}
