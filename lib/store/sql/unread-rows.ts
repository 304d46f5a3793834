import type { RowSays } from '@/lib/contract/urgent'
import type { NewUnreadRow, RowOrigin } from '../unread-rows'
import { sql, type Sql } from './sql'

const numbersOf = ({ side_a_uohm: a, side_b_uohm: b, conductor_uohm: c, splice_temp_c: t }: RowSays): string => JSON.stringify([a, b, c, t])

/** What a stored row measured, as `numbersOf` has it. */
const numbers = sql`jsonb_build_array(w.says->'side_a_uohm', w.says->'side_b_uohm', w.says->'conductor_uohm', w.says->'splice_temp_c')`

/** Of each row, the notice of the same row in an earlier import: the one with the same numbers first, then the worst and latest. */
export const sameUnread = (importId: number, rows: readonly NewUnreadRow[]): Sql => sql`
  WITH v AS (
    SELECT * FROM unnest(
      ${rows.map((_, at) => at)}::int[], ${rows.map(({ survey }) => survey)}::text[], ${rows.map(({ readingKey }) => readingKey)}::text[],
      ${rows.map(({ row }) => row)}::int[], ${rows.map(({ origin }) => origin?.importId ?? null)}::int[], ${rows.map(({ origin }) => origin?.row ?? null)}::int[],
      ${rows.map(({ says }) => numbersOf(says))}::jsonb[]) AS v (at, survey, reading_key, row_no, from_import, from_row, numbers)
  ), same AS (
    SELECT v.at, v.numbers, w.id FROM v JOIN unread_row w ON w.survey = v.survey AND w.reading_key = v.reading_key
    UNION SELECT v.at, v.numbers, w.id FROM v JOIN unread_row w ON w.import_id = v.from_import AND w.row_no = v.from_row
    UNION SELECT v.at, v.numbers, w.id FROM v JOIN unread_row w ON w.survey = v.survey AND w.row_no = v.row_no AND ${numbers} = v.numbers
      JOIN import wi ON wi.id = w.import_id JOIN import i ON i.id = ${importId}::int AND i.file_name = wi.file_name
      WHERE v.reading_key IS NULL AND w.reading_key IS NULL
  )
  SELECT DISTINCT ON (same.at) same.at, u.id AS notice_id, u.class, u.acknowledged_at IS NULL AS waiting
  FROM same JOIN unread_row w ON w.id = same.id JOIN urgent_notice u ON u.id = w.notice_id
  ORDER BY same.at, (${numbers} = same.numbers) DESC, class_rank(u.class) DESC, w.id DESC`

/** Whatever the row measured the reading has too; what could not be read of the row may be anything. */
const measuredTheSame = sql`
  coalesce(w.says->>'side_a_uohm', w.says->>'side_b_uohm', w.says->>'splice_temp_c') IS NOT NULL
  AND coalesce((w.says->>'side_a_uohm')::float8 = r.side_a_uohm, w.says->>'side_a_uohm' IS NULL)
  AND coalesce((w.says->>'side_b_uohm')::float8 = r.side_b_uohm, w.says->>'side_b_uohm' IS NULL)
  AND coalesce((w.says->>'splice_temp_c')::float8 = r.splice_temp_c, w.says->>'splice_temp_c' IS NULL)`

/** The readings of an import that are rows which were not read before, each with the one notice that it takes over. */
export const sameCorrected = (importId: number, origins: ReadonlyMap<number, RowOrigin>): Sql => sql`
  WITH w AS (
    SELECT ur.*, wi.file_name, u.class FROM unread_row ur JOIN urgent_notice u ON u.id = ur.notice_id JOIN import wi ON wi.id = ur.import_id
    LEFT JOIN reading old ON old.id = u.reading_id
    WHERE u.reading_id IS NULL OR old.withdrawn
  ), corrected AS (
    SELECT w.notice_id, w.class, r.id FROM w JOIN survey sv ON sv.name = w.survey
      JOIN reading r ON r.survey_id = sv.id AND r.reading_key = w.reading_key AND NOT r.withdrawn AND r.import_id = ${importId}::int
    UNION SELECT w.notice_id, w.class, r.id FROM w
      JOIN unnest(${[...origins.keys()]}::int[], ${[...origins.values()].map((one) => one.importId)}::int[], ${[...origins.values()].map((one) => one.row)}::int[])
        AS o (row_no, from_import, from_row) ON o.from_import = w.import_id AND o.from_row = w.row_no
      JOIN reading r ON r.import_id = ${importId}::int AND r.row_no = o.row_no
    UNION SELECT w.notice_id, w.class, r.id FROM w JOIN import i ON i.id = ${importId}::int AND i.file_name = w.file_name
      JOIN survey sv ON sv.name = w.survey JOIN reading r ON r.import_id = i.id AND r.row_no = w.row_no AND r.survey_id = sv.id
      WHERE w.reading_key IS NULL AND ${measuredTheSame}
  ), one_reading AS (SELECT DISTINCT ON (notice_id) * FROM corrected ORDER BY notice_id, id)
  SELECT DISTINCT ON (id) notice_id, id AS reading_id FROM one_reading ORDER BY id, class_rank(class) DESC, notice_id`
