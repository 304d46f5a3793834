import { join, name, sql } from './sql/sql'
import type { Db } from './transaction'

/** Values by column name, written in our own code. */
export type RowValues = Record<string, string | number | boolean | null | readonly (string | number)[]>

/** One new row of a table with a numbered key. Returns its id. */
export async function insertRow(db: Db, table: string, values: RowValues): Promise<number> {
  const columns = Object.keys(values)
  const row = await db.row<{ id: number }>(sql`
    INSERT INTO ${name(table)} (${name(columns.join(', '))}) VALUES (${join(Object.values(values))}) RETURNING id`)
  if (!row) throw new Error(`A row of ${table} was not written.`)
  return row.id
}

/** Changes the columns given of one row. */
export async function updateRow(db: Db, table: string, id: number, values: RowValues): Promise<void> {
  const settings = Object.entries(values).map(([column, value]) => sql`${name(column)} = ${value}`)
  if (settings.length > 0) await db.run(sql`UPDATE ${name(table)} SET ${join(settings)} WHERE id = ${id}`)
}
