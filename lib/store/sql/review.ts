import { REVIEW_RULES } from '@/lib/geo'
import { iso } from './iso'
import { readingColumns, readingTables } from './reading'
import { join, name, sql, type Sql } from './sql'

const literal = (word: string): Sql => name(`'${word}'`)
const hasReason = (code: string): Sql => sql`p.reasons::jsonb @> ${name(`'[{"code":"${code}"}]'`)}::jsonb`
const probability = (index: 0 | 1): Sql => name(`(p.candidates->${index}->>'probability')::float8`)

/** The second candidate is on another circuit and likelier than that no line is meant; null where there is no second. */
const hasRival: Sql = sql`(p.candidates->1->>'circuitId' <> p.candidates->0->>'circuitId'
  AND ${probability(1)} > 1 - ${probability(0)} - ${probability(1)})`

/** Why a placement waits for a person: the rules of lib/geo in their order, so that a queue of any length is counted and filtered by them. */
export const reviewCauseOf: Sql = sql`CASE WHEN p.state <> 'review' THEN NULL ${join(REVIEW_RULES.map(({ cause, codes, needsRival }) =>
  sql`WHEN (${join(codes.map(hasReason), ' OR ')}) ${needsRival ? sql`AND ${hasRival}` : sql``} THEN ${literal(cause)}`), ' ')} END`

/** A reading with why it waits and whether it is behind something urgent or critical. */
export const reviewColumns: Sql = sql`
  ${readingColumns}, ${reviewCauseOf} AS cause, class_rank(coalesce(u.class, '')) AS urgent_rank,
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
