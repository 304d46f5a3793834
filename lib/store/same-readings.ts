import type { Mapping } from '@/lib/intake/types'
import { onEverything, type Scope } from './scope'
import { sql, type Sql } from './sql/sql'
import type { Db } from './transaction'

/** A stored reading that counts, and where it came from. */
export interface StoredReading {
  /** Null while it is being written. */
  id: number | null
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
    SELECT r.id, r.content_hash, r.reading_key, r.survey_id, sv.name AS survey, r.import_id, i.file_name, i.created_at AS imported_at
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

/** Imports of readings from a file of this name that stand, and how each was read. */
export async function importsOfFile(scope: Scope, fileName: string, exceptId: number, db: Db): Promise<{ id: number; mapping: Mapping | null }[]> {
  return db.rows(sql`
    SELECT id, mapping FROM import
    WHERE kind = 'readings' AND file_name = ${fileName} AND id <> ${exceptId} AND state = 'done' AND NOT dry_run AND ${onEverything(scope)} ORDER BY id`)
}

/** A stored reading of the same measurement, which says it in other values. */
export interface OtherReading {
  id: number
  import_id: number
  file_name: string
  /** Class of the worst notice that it raised; null where it raised none. */
  noticed: 'urgent' | 'critical' | null
}

const OTHER = sql`r.id, r.import_id, i.file_name,
  (SELECT n.class FROM urgent_notice n WHERE n.reading_id = r.id ORDER BY class_rank(n.class) DESC LIMIT 1) AS noticed`

/** Readings of these imports that were these rows, by their text. */
export async function readingsOfRows(scope: Scope, importIds: readonly number[], rawRows: readonly string[], db: Db): Promise<Map<string, OtherReading>> {
  const rows = await db.rows<OtherReading & { raw_row: string }>(sql`
    SELECT r.raw_row, ${OTHER} FROM reading r JOIN import i ON i.id = r.import_id
    WHERE r.import_id = ANY(${importIds}::int[]) AND r.raw_row = ANY(${rawRows}::text[]) AND NOT r.withdrawn AND ${onEverything(scope)} ORDER BY r.id DESC`)
  return new Map(rows.map((row) => [row.raw_row, row]))
}

/** What was measured, where and when; null is not known. */
export interface Measurement {
  surveyId: number
  takenAt: Date
  kind: string
  sideAUohm: number | null
  sideBUohm: number | null
  spliceTempC: number | null
  lon: number | null
  lat: number | null
  circuitLabel: string | null
  structureBack: string | null
  structureAhead: string | null
  spliceLabel: string | null
  phase: string | null
  repeatNo: number | null
}

/**
 * Readings without an id of their own that other imports brought into the same survey and that were measured at the same moment and place with
 * the same values, by the index of the measurement. What one of the two does not say of the place tells them not apart.
 */
export async function readingsMeasuredSo(scope: Scope, importId: number, these: readonly Measurement[], db: Db): Promise<Map<number, OtherReading>> {
  if (these.length === 0) return new Map()
  const of = <K extends keyof Measurement>(key: K) => these.map((one) => one[key])
  const alike = (column: Sql, value: Sql) => sql`(r.${column} = ${value} OR r.${column} IS NULL OR ${value} IS NULL)`
  const rows = await db.rows<OtherReading & { at: number }>(sql`
    SELECT v.at, ${OTHER} FROM unnest(
      ${these.map((_, at) => at)}::int[], ${of('surveyId')}::int[], ${of('takenAt').map((at) => at.toISOString())}::timestamptz[], ${of('kind')}::text[],
      ${of('sideAUohm')}::float8[], ${of('sideBUohm')}::float8[], ${of('spliceTempC')}::float8[], ${of('lon')}::float8[], ${of('lat')}::float8[],
      ${of('circuitLabel')}::text[], ${of('structureBack')}::text[], ${of('structureAhead')}::text[], ${of('spliceLabel')}::text[], ${of('phase')}::text[], ${of('repeatNo')}::int[]
    ) AS v (at, survey_id, taken_at, kind, a, b, t, lon, lat, circuit, back, ahead, splice, phase, repeat_no)
    JOIN reading r ON r.survey_id = v.survey_id AND r.taken_at = v.taken_at AND r.kind::text = v.kind JOIN import i ON i.id = r.import_id
    WHERE r.import_id <> ${importId} AND NOT r.withdrawn AND r.reading_key = r.content_hash
      AND r.side_a_uohm IS NOT DISTINCT FROM v.a AND r.side_b_uohm IS NOT DISTINCT FROM v.b AND r.splice_temp_c IS NOT DISTINCT FROM v.t
      AND ${alike(sql`lon`, sql`v.lon`)} AND ${alike(sql`lat`, sql`v.lat`)} AND ${alike(sql`circuit_label`, sql`v.circuit`)}
      AND ${alike(sql`structure_back`, sql`v.back`)} AND ${alike(sql`structure_ahead`, sql`v.ahead`)} AND ${alike(sql`splice_label`, sql`v.splice`)}
      AND ${alike(sql`phase`, sql`v.phase`)} AND ${alike(sql`repeat_no`, sql`v.repeat_no`)}
      AND (r.lon = v.lon OR r.splice_label = v.splice OR r.structure_back = v.back OR r.structure_ahead = v.ahead) AND ${onEverything(scope)}
    ORDER BY r.id DESC`)
  return new Map(rows.map((row) => [row.at, row]))
}
