import { name, sql } from './sql/sql'
import type { Db } from './transaction'

export type NumberedTable = 'reading' | 'assessment' | 'splice' | 'span' | 'structure'

/** Takes ids for rows that are about to be written by COPY, so that rows of other tables can point at them. */
export async function reserveIds(db: Db, table: NumberedTable, count: number): Promise<number[]> {
  if (count === 0) return []
  const row = await db.row<{ ids: number[] }>(
    sql`SELECT array_agg(nextval(${name(`'${table}_id_seq'`)})::int) AS ids FROM generate_series(1, ${count}::int)`)
  return row?.ids ?? []
}
