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
 * When the reading that first showed the class of `state` was taken and when it was read in here: no row where it has no time. It is the
 * finding that the class rests on, unless that came in after the class was first shown: a later one as bad takes nothing off the time
 * since the first. Then the newest reading that was here by then.
 */
export const readingBehind: Sql = sql`
  SELECT r.taken_at, coalesce(i.finished_at, i.created_at) AS entered_at
  FROM reading r JOIN import i ON i.id = r.import_id
  WHERE r.taken_at IS NOT NULL AND r.id = coalesce(
    (SELECT f.id FROM reading f JOIN import fi ON fi.id = f.import_id WHERE f.id = state.found_reading_id AND fi.created_at <= ${shownSince}),
    (SELECT p.reading_id FROM placement p JOIN reading d ON d.id = p.reading_id JOIN import di ON di.id = d.import_id
      WHERE p.splice_id = state.splice_id AND p.current AND p.state = 'placed' AND NOT d.withdrawn AND d.taken_at <= ${shownSince}
        AND di.created_at <= ${shownSince}
      ORDER BY d.taken_at DESC LIMIT 1),
    state.found_reading_id)`
