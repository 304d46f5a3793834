import type { Candidate, ReadingJson, ReviewCause, ReviewItem } from '@/lib/contract/contract'
import type { ReviewPage } from '@/lib/contract/intake'
import type { NoticeState } from '@/lib/contract/urgent'
import { cellsOfRaw } from '@/lib/intake/report/raw-cells'
import { fromCursor, pageOf } from './cursor'
import { candidateJson, readingJson, type ReadingRow, type ReasonSentence } from './reading-json'
import { reasonSentenceOf } from './reason-sentence'
import { onPlacement, type Scope } from './scope'
import { nearestLoads } from './sql/nearest-load'
import { readingColumns, readingTables } from './sql/reading'
import { reviewColumns, reviewTables } from './sql/review'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

/** One reading that counts; undefined where it was withdrawn, is unknown, or lies outside the scope. */
export async function getReading(scope: Scope, id: number, db: Db = database()): Promise<ReadingJson | undefined> {
  const row = await db.row<ReadingRow>(sql`
    SELECT ${readingColumns} FROM ${readingTables} WHERE r.id = ${id} AND NOT r.withdrawn AND ${onPlacement(scope, 'p')}`)
  return row && { ...readingJson(row, await reasonSentenceOf(scope, db)), ...await rawCellsOf(row, db) }
}

/** The raw row by the header of its file; a file that was read before headers were kept has none. */
async function rawCellsOf({ import_id: importId, raw_row: raw }: ReadingRow, db: Db): Promise<Pick<ReadingJson, 'raw_cells'>> {
  const file = await db.row<{ header: string[] | null; delimiter: string | null }>(sql`SELECT header, delimiter FROM import WHERE id = ${importId}`)
  if (!file?.header) return {}
  const columns = file.header
  const { cells } = cellsOfRaw(raw, columns, file.delimiter ?? undefined)
  return { raw_cells: cells.map((cell, i) => ({ column: columns[i] ?? '', cell })) }
}

/** Readings of one import in the order of its file. */
export async function readingsOfImport(scope: Scope, importId: number, cursor?: string, limit = 100, db: Db = database()) {
  const asked = ['readings', importId]
  const after = fromCursor(cursor, ['int', 'int'], asked)
  const rows = await db.rows<ReadingRow>(sql`
    SELECT ${readingColumns} FROM ${readingTables}
    WHERE r.import_id = ${importId} AND NOT r.withdrawn AND ${onPlacement(scope, 'p')}
      AND ${after ? sql`(r.row_no, r.id) > (${after[0]}::int, ${after[1]}::int)` : sql`TRUE`}
    ORDER BY r.row_no, r.id LIMIT ${limit + 1}`)
  const page = pageOf(rows, limit, (row) => [row.row, row.id], asked)
  const sentence = await reasonSentenceOf(scope, db)
  return { ...page, items: page.items.map((row) => readingJson(row, sentence)) }
}

/** Readings placed on one splice, the newest first. Which they are is asked before what they say, for a monitored splice has tens of thousands. */
export async function readingsOfSplice(scope: Scope, spliceId: number, db: Db = database()): Promise<ReadingJson[]> {
  const rows = await db.rows<ReadingRow>(sql`
    WITH newest AS MATERIALIZED (
      SELECT r.id FROM placement p JOIN reading r ON r.id = p.reading_id
      WHERE p.splice_id = ${spliceId} AND p.current AND p.state = 'placed' AND NOT r.withdrawn AND ${onPlacement(scope, 'p')}
      ORDER BY r.taken_at DESC NULLS LAST, r.id DESC LIMIT 500
    )
    SELECT ${readingColumns} FROM ${readingTables} WHERE r.id IN (SELECT id FROM newest)
    ORDER BY r.taken_at DESC NULLS LAST, r.id DESC`)
  const sentence = await reasonSentenceOf(scope, db)
  return rows.map((row) => readingJson(row, sentence))
}

type ReviewRow = ReadingRow & { cause: ReviewCause | null; urgent_rank: number; notice: NoticeState | null }

/** As the review shows them, each candidate with what its section carried nearest to the time of the reading. */
async function reviewItems(rows: readonly ReviewRow[], sentence: ReasonSentence, db: Db): Promise<ReviewItem[]> {
  const asked = rows.flatMap(({ taken_at: at, p_candidates: all }) => (at === null ? [] : all.map(({ sectionId }) => ({ sectionId, at: new Date(at) }))))
  const found = asked.length === 0 ? [] : await db.rows<NonNullable<Candidate['nearest_load']> & { n: number }>(nearestLoads(asked))
  const loads = new Map(found.map(({ n, ...load }) => [n, load]))
  const sections = [...new Set(rows.flatMap(({ p_candidates: all }) => all.map(({ sectionId }) => sectionId)))]
  const ratings = sections.length === 0 ? [] : await db.rows<{ id: number; most_a: number | null }>(
    sql`SELECT id, greatest(rating_emergency_a, rating_a)::float8 AS most_a FROM section WHERE id = ANY(${sections}::int[])`)
  const mostA = new Map(ratings.map(({ id, most_a: most }) => [id, most]))
  let n = 0
  return rows.map((row) => ({
    reading: readingJson(row, sentence), cause: row.cause, urgent: row.notice !== null, notice: row.notice,
    candidates: row.p_candidates.map((one) => ({
      ...candidateJson(one), nearest_load: row.taken_at === null ? null : loads.get(++n) ?? null, most_a: mostA.get(one.sectionId) ?? null,
    })),
  }))
}

export interface ReviewOptions { state?: 'review' | 'rejected'; cause?: ReviewCause; cursor?: string; limit?: number }

/** What waits for a person (or what people rejected): urgent and critical first, then the oldest; and how many wait for which cause. */
export async function listReview(scope: Scope, options: ReviewOptions = {}, db: Db = database()): Promise<ReviewPage> {
  const { state = 'review', cause, limit = 50 } = options
  const asked = ['review', state, cause]
  const after = fromCursor(options.cursor, ['int', 'int'], asked)
  const where = sql`p.state = ${state} AND NOT r.withdrawn AND ${onPlacement(scope, 'p')}`
  const [rows, causes] = await Promise.all([
    db.rows<ReviewRow>(sql`
      SELECT ${reviewColumns} FROM (
        SELECT r.id, -coalesce(u.rank, 0) AS place FROM placement p JOIN reading r ON r.id = p.reading_id
        LEFT JOIN (SELECT reading_id, max(class_rank(class)) AS rank FROM urgent_notice GROUP BY reading_id) u ON u.reading_id = r.id
        WHERE p.current AND ${where} AND ${after ? sql`(-coalesce(u.rank, 0), r.id) > (${after[0]}::int, ${after[1]}::int)` : sql`TRUE`}
          AND ${cause === undefined ? sql`TRUE` : sql`p.review_cause = ${cause}`}
        ORDER BY 2, 1 LIMIT ${limit + 1}
      ) shown JOIN (${reviewTables}) ON r.id = shown.id
      ORDER BY shown.place, r.id`),
    db.rows<{ cause: ReviewCause | null; count: number; urgent: number }>(sql`
      SELECT p.review_cause AS cause, count(*)::int AS count, count(u.reading_id)::int AS urgent
      FROM placement p JOIN reading r ON r.id = p.reading_id LEFT JOIN (SELECT DISTINCT reading_id FROM urgent_notice) u ON u.reading_id = r.id
      WHERE p.current AND ${where} GROUP BY 1 ORDER BY 2 DESC, 1`),
  ])
  const page = pageOf(rows, limit, (row) => [-row.urgent_rank, row.id], asked)
  const sentence = await reasonSentenceOf(scope, db)
  const counted = cause === undefined ? causes : causes.filter((one) => one.cause === cause)
  return {
    items: await reviewItems(page.items, sentence, db), next_cursor: page.next_cursor, total: counted.reduce((sum, one) => sum + one.count, 0),
    causes: causes.flatMap((one) => (one.cause === null ? [] : [{ ...one, cause: one.cause }])),
  }
}

/** One reading as the review shows it, whatever its state. */
export async function getReviewItem(scope: Scope, readingId: number, db: Db = database()): Promise<ReviewItem | undefined> {
  const row = await db.row<ReviewRow>(sql`
    SELECT ${reviewColumns} FROM ${reviewTables} WHERE r.id = ${readingId} AND NOT r.withdrawn AND ${onPlacement(scope, 'p')}`)
  return row && (await reviewItems([row], await reasonSentenceOf(scope, db), db))[0]
}

/** What a reading itself says of the fitting it was taken on. */
export interface ReadingSays {
  phase: string | null; position: string | null; circuit_side: string | null; subconductor: string | null; splice_label: string | null
  lon: number | null; lat: number | null; sigma_m: number | null
}

export async function readingSays(scope: Scope, readingId: number, db: Db): Promise<ReadingSays | undefined> {
  return db.row<ReadingSays>(sql`
    SELECT r.phase, r.position, r.circuit_side, r.subconductor, r.splice_label, r.lon, r.lat, r.sigma_m
    FROM reading r JOIN placement p ON p.reading_id = r.id AND p.current WHERE r.id = ${readingId} AND ${onPlacement(scope, 'p')}`)
}
