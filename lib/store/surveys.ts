import { mustCoverEverything, onPlacement, type Scope } from './scope'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

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

/** The surveys of these names that there are, by name. */
export async function surveysNamed(scope: Scope, names: readonly string[], db: Db): Promise<Map<string, number>> {
  mustCoverEverything(scope)
  const rows = await db.rows<{ id: number; name: string }>(sql`SELECT id, name FROM survey WHERE name = ANY(${names}::text[])`)
  return new Map(rows.map(({ id, name }) => [name, id]))
}

/** More than a menu can hold. */
const MOST_SURVEYS = 500

/** Surveys with readings that still count within the scope, the newest first. */
export const listSurveys = (scope: Scope, db: Db = database()): Promise<{ id: number; name: string }[]> => db.rows<{ id: number; name: string }>(sql`
  SELECT sv.id, sv.name FROM survey sv
  WHERE EXISTS (SELECT FROM reading r JOIN placement p ON p.reading_id = r.id AND p.current WHERE r.survey_id = sv.id AND NOT r.withdrawn AND ${onPlacement(scope, 'p')})
  ORDER BY sv.id DESC LIMIT ${MOST_SURVEYS}`)
