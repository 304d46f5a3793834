import type { Policy } from '@/lib/condition'
import { sql, type Sql } from './sql'

/** How long a splice may stand in its class, as an interval over the state `state`; null for classes that have no response time. */
export const responseTime = ({ response }: Pick<Policy, 'response'>): Sql => sql`CASE state.class
  WHEN 'critical' THEN make_interval(secs => 3600 * ${response.criticalHours}::float8)
  WHEN 'urgent' THEN make_interval(secs => 86400 * ${response.urgentDays}::float8)
  WHEN 'degraded' THEN make_interval(secs => 86400 * ${response.degradedDays}::float8) END`

/** Since when the class or a worse one has been shown to people. */
export const shownSince: Sql = sql`CASE state.class WHEN 'critical' THEN state.critical_since WHEN 'urgent' THEN state.urgent_since
  WHEN 'degraded' THEN state.degraded_since END`

/**
 * When the reading behind the class of `state` was taken and when it was read in here: no row where it has no time. Behind urgent and
 * critical stands their finding; behind degraded the newest reading there was when it was first shown.
 */
export const readingBehind: Sql = sql`
  SELECT r.taken_at, coalesce(i.finished_at, i.created_at) AS entered_at
  FROM reading r JOIN import i ON i.id = r.import_id
  WHERE r.taken_at IS NOT NULL AND r.id = coalesce(state.found_reading_id, CASE WHEN state.class = 'degraded' THEN (
    SELECT p.reading_id FROM placement p JOIN reading d ON d.id = p.reading_id
    WHERE p.splice_id = state.splice_id AND p.current AND p.state = 'placed' AND NOT d.withdrawn AND d.taken_at <= state.degraded_since
    ORDER BY d.taken_at DESC LIMIT 1
  ) END)`
