import { sql, type Sql } from './sql'

/** A moment at which a section's load is asked. */
export interface LoadAsked { sectionId: number; at: Date }

const side = (isBefore: boolean): Sql => sql`(
  SELECT x.current_a, x.taken_at, x.quality FROM section_load x
  WHERE x.section_id = asked.section_id AND x.flow = 'carried' AND x.quality IS DISTINCT FROM 'suspect' AND ${isBefore ? sql`x.taken_at <= asked.at` : sql`x.taken_at > asked.at`}
  ORDER BY ${isBefore ? sql`x.taken_at DESC` : sql`x.taken_at`} LIMIT 1)`

/** The load that nobody suspects nearest to each moment, before or after it: n (from 1), current_a, taken_at, quality. None where none is known. */
export const nearestLoads = (asked: readonly LoadAsked[]): Sql => sql`
  SELECT asked.n::int AS n, nearest.current_a, to_char(nearest.taken_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS taken_at, nearest.quality
  FROM unnest(${asked.map(({ sectionId }) => sectionId)}::int[], ${asked.map(({ at }) => at)}::timestamptz[]) WITH ORDINALITY AS asked (section_id, at, n)
  CROSS JOIN LATERAL (
    SELECT * FROM (${side(true)} UNION ALL ${side(false)}) beside ORDER BY abs(extract(epoch FROM beside.taken_at - asked.at)) LIMIT 1
  ) nearest`
