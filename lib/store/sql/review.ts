import { readingColumns, readingTables } from './reading'
import { sql, type Sql } from './sql'

/** A reading with whether its own numbers are urgent or critical. */
export const reviewColumns: Sql = sql`${readingColumns}, u.reading_id IS NOT NULL AS urgent, class_rank(coalesce(u.class, '')) AS urgent_rank`

export const reviewTables: Sql = sql`${readingTables} LEFT JOIN urgent_notice u ON u.reading_id = r.id`
