import { onEverything, type Scope } from './scope'
import { sql } from './sql/sql'
import type { Db } from './transaction'

export interface HeldReading { id: number; contentHash: string }

/** Which of these keys the survey holds already. */
export async function heldReadings(scope: Scope, surveyId: number, keys: readonly string[], db: Db): Promise<Map<string, HeldReading>> {
  const rows = await db.rows<{ reading_key: string; id: number; content_hash: string }>(sql`
    SELECT reading_key, id, content_hash FROM reading
    WHERE survey_id = ${surveyId} AND reading_key = ANY(${keys}::text[]) AND NOT withdrawn AND ${onEverything(scope)}`)
  return new Map(rows.map((row) => [row.reading_key, { id: row.id, contentHash: row.content_hash }]))
}

/** The readings of an import count no longer. They stay as they were written. Returns how many. */
export async function withdrawReadings(scope: Scope, importId: number, db: Db): Promise<number> {
  return db.run(sql`UPDATE reading SET withdrawn = TRUE WHERE import_id = ${importId} AND NOT withdrawn AND ${onEverything(scope)}`)
}
