import { mustCoverEverything, type Scope } from './scope'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

/**
 * Readings in review that are urgent or critical by their own numbers, each once, whatever number of circuits it may be on. What the circuits
 * count of them adds up to more.
 */
export async function unsettledInAll(scope: Scope, db: Db = database()): Promise<{ urgent: number; critical: number }> {
  mustCoverEverything(scope)
  const row = await db.row<{ urgent: number; critical: number }>(sql`
    SELECT count(*) FILTER (WHERE class = 'urgent')::int AS urgent, count(*) FILTER (WHERE class = 'critical')::int AS critical FROM (
      SELECT DISTINCT ON (u.reading_id) u.class FROM urgent_notice u
      JOIN placement p ON p.reading_id = u.reading_id AND p.current AND p.state = 'review'
      JOIN reading r ON r.id = u.reading_id AND NOT r.withdrawn
      ORDER BY u.reading_id, -class_rank(u.class)
    ) each`)
  return row ?? { urgent: 0, critical: 0 }
}
