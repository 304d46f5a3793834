import { mustCoverEverything, type Scope } from './scope'
import { sql } from './sql/sql'
import type { Db } from './transaction'

/** The survey of this name, made by this import where there is none. `isNew`: it holds no reading yet. */
export async function openSurvey(scope: Scope, name: string, importId: number, db: Db): Promise<{ id: number; isNew: boolean }> {
  mustCoverEverything(scope)
  const made = await db.row<{ id: number }>(sql`
    INSERT INTO survey (name, import_id) VALUES (${name}, ${importId}) ON CONFLICT (name) DO NOTHING RETURNING id`)
  if (made) return { id: made.id, isNew: true }
  const held = await db.row<{ id: number }>(sql`SELECT id FROM survey WHERE name = ${name}`)
  if (!held) throw new Error(`The survey ${name} could be neither made nor found.`)
  return { id: held.id, isNew: false }
}
