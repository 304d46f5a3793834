import type { ReadingRecord } from '@/lib/intake/reading'
import { copyRows, type CopyValue } from './copy'
import { READING_COLUMNS, type ReadingColumn } from './reading-columns'
import { mustCoverEverything, onEverything, type Scope } from './scope'
import { sql } from './sql/sql'
import type { Db, Tx } from './transaction'

export interface HeldReading { id: number; contentHash: string }

/** Which of these keys the survey holds already. */
export async function heldReadings(scope: Scope, surveyId: number, keys: readonly string[], db: Db): Promise<Map<string, HeldReading>> {
  const rows = await db.rows<{ reading_key: string; id: number; content_hash: string }>(sql`
    SELECT reading_key, id, content_hash FROM reading
    WHERE survey_id = ${surveyId} AND reading_key = ANY(${keys}::text[]) AND NOT withdrawn AND ${onEverything(scope)}`)
  return new Map(rows.map((row) => [row.reading_key, { id: row.id, contentHash: row.content_hash }]))
}

export interface NewReading { id: number; surveyId: number; record: ReadingRecord }

type Column = readonly [column: ReadingColumn, key: keyof ReadingRecord]
const ALL = Object.entries(READING_COLUMNS) as unknown as readonly Column[]

function* copyValues(importId: number, readings: readonly NewReading[], columns: readonly Column[]): Generator<CopyValue[]> {
  for (const { id, surveyId, record } of readings) {
    const values: CopyValue[] = [id, importId, surveyId]
    for (const [, key] of columns) values.push(record[key])
    yield values
  }
}

/** Readings by COPY. The database refuses what its constraints forbid, and with it the whole import. */
export async function copyReadings(scope: Scope, importId: number, readings: readonly NewReading[], tx: Tx): Promise<void> {
  mustCoverEverything(scope)
  if (readings.length === 0) return
  // A file fills few of the columns: those that no reading fills need not be sent.
  const filled = ALL.filter(([, key]) => readings.some(({ record }) => record[key] !== null))
  await copyRows(tx, 'reading', ['id', 'import_id', 'survey_id', ...filled.map(([column]) => column)], copyValues(importId, readings, filled))
}

/** The readings of an import count no longer. They stay as they were written. Returns how many. */
export async function withdrawReadings(scope: Scope, importId: number, db: Db): Promise<number> {
  return db.run(sql`UPDATE reading SET withdrawn = TRUE WHERE import_id = ${importId} AND NOT withdrawn AND ${onEverything(scope)}`)
}
