import { readingColumns, readingTables } from './reading'
import { sql, type Sql } from './sql'

/** A reading with whether it is behind something urgent or critical. */
export const reviewColumns: Sql = sql`${readingColumns}, u.class IS NOT NULL AS urgent, class_rank(coalesce(u.class, '')) AS urgent_rank`

export const reviewTables: Sql = sql`${readingTables} LEFT JOIN (
  SELECT reading_id, CASE max(class_rank(class)) WHEN 5 THEN 'critical' ELSE 'urgent' END AS class FROM urgent_notice GROUP BY reading_id
) u ON u.reading_id = r.id`
