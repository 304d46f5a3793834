import { iso } from './iso'
import { readingColumns, readingTables } from './reading'
import { sql, type Sql } from './sql'

/** A reading with why it waits and whether it is behind something urgent or critical. */
export const reviewColumns: Sql = sql`
  ${readingColumns}, p.review_cause AS cause, class_rank(coalesce(u.class, '')) AS urgent_rank,
  CASE WHEN u.class IS NOT NULL THEN jsonb_build_object(
    'class', u.class, 'basis', u.basis, 'acknowledged_at', ${iso('u.acknowledged_at')}, 'acknowledged_by', u.acknowledged_by,
    'told_to', u.told_to, 'told_at', ${iso('u.told_at')}) END AS notice`

/** The worst notice of each reading, told once all of them are. */
export const reviewTables: Sql = sql`${readingTables} LEFT JOIN (
  SELECT reading_id, (array_agg(class ORDER BY class_rank(class) DESC))[1] AS class, (array_agg(basis ORDER BY class_rank(class) DESC))[1] AS basis,
    CASE WHEN count(*) = count(acknowledged_at) THEN max(acknowledged_at) END AS acknowledged_at,
    CASE WHEN count(*) = count(acknowledged_at) THEN (array_agg(acknowledged_by ORDER BY acknowledged_at DESC))[1] END AS acknowledged_by,
    CASE WHEN count(*) = count(acknowledged_at) THEN (array_agg(told_to ORDER BY acknowledged_at DESC))[1] END AS told_to,
    CASE WHEN count(*) = count(acknowledged_at) THEN (array_agg(told_at ORDER BY acknowledged_at DESC))[1] END AS told_at
  FROM urgent_notice WHERE reading_id IS NOT NULL GROUP BY reading_id
) u ON u.reading_id = r.id`
