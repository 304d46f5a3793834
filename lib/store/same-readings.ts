import { onEverything, type Scope } from './scope'
import { sql } from './sql/sql'
import type { Db } from './transaction'

/** A stored reading that counts, and where it came from. */
export interface StoredReading {
  content_hash: string
  reading_key: string
  survey_id: number
  survey: string
  import_id: number
  file_name: string
  imported_at: Date
}

/** Whether any reading counts at all: where none does, none can be the same as another. */
export async function holdsReadings(scope: Scope, db: Db): Promise<boolean> {
  const row = await db.row<{ any: boolean }>(sql`SELECT EXISTS (SELECT FROM reading WHERE NOT withdrawn AND ${onEverything(scope)}) AS any`)
  return row?.any ?? false
}

/** Readings that count and say the same as these contents, of whatever survey, by content; the first of each survey first. */
export async function readingsThatSay(scope: Scope, contentHashes: readonly string[], db: Db): Promise<Map<string, StoredReading[]>> {
  const rows = await db.rows<StoredReading>(sql`
    SELECT r.content_hash, r.reading_key, r.survey_id, sv.name AS survey, r.import_id, i.file_name, i.created_at AS imported_at
    FROM unnest(${contentHashes}::text[]) AS wanted (hash)
    CROSS JOIN LATERAL (SELECT * FROM reading WHERE content_hash = wanted.hash OFFSET 0) r
    JOIN survey sv ON sv.id = r.survey_id
    JOIN import i ON i.id = r.import_id
    WHERE NOT r.withdrawn AND ${onEverything(scope)} ORDER BY r.id`)
  const found = new Map<string, StoredReading[]>()
  for (const row of rows) {
    const list = found.get(row.content_hash)
    if (list) list.push(row)
    else found.set(row.content_hash, [row])
  }
  return found
}
