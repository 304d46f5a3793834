import type { ClassCounts } from '@/lib/contract/contract'
import { currentPolicyJson } from './policies'
import { onCircuit, onPlacement, type Scope } from './scope'
import { soundPastReMeasure } from './sql/circuit-summary'
import { iso } from './sql/iso'
import { sql } from './sql/sql'
import { countSplices } from './splices'
import { database, type Db } from './transaction'
import { waitingNotices } from './urgent'

export interface StoreState {
  data_version: number
  policy_version: number
  /** ISO 8601. Everything here is as old as its transaction, which others cannot see before it ends: this lies before all that are open. */
  complete_to: string
  review_count: number
  urgent_count: number
  /** West, south, east, north; null without a network. */
  network_bbox: [number, number, number, number] | null
  counts: ClassCounts
  sound_past_re_measure: number
  /** Urgent and critical readings in review that have a position, the worst first. */
  unsettled: { reading_id: number; class: 'urgent' | 'critical'; lon: number; lat: number }[]
}

/** More than a map could show apart; the review queue has them all. */
const MOST_UNSETTLED = 200

/** What a screen asks first and then again: has anything changed, what waits for a person. */
export async function storeState(scope: Scope, db: Db = database()): Promise<StoreState> {
  const [policy, counts, row] = await Promise.all([
    currentPolicyJson(scope, db),
    countSplices(scope, {}, undefined, db),
    db.row<Omit<StoreState, 'policy_version' | 'counts'>>(sql`
      SELECT (SELECT version FROM data_version) AS data_version,
        (SELECT ${iso('complete.at')} FROM (
          SELECT least(now(), min(xact_start)) - interval '1 millisecond' AS at FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid()
        ) complete) AS complete_to,
        (SELECT count(*) FROM placement p WHERE p.current AND p.state = 'review' AND ${onPlacement(scope, 'p')}) AS review_count,
        ${waitingNotices(scope)} AS urgent_count,
        (SELECT coalesce(sum(${soundPastReMeasure}), 0)::int FROM circuit_health h WHERE ${onCircuit(scope, 'h.circuit_id')}) AS sound_past_re_measure,
        (SELECT coalesce(jsonb_agg(u ORDER BY -class_rank(u.class), u.reading_id), '[]') FROM (
          SELECT * FROM (
            SELECT DISTINCT ON (r.id) r.id AS reading_id, n.class, r.lon, r.lat FROM urgent_notice n
            JOIN reading r ON r.id = n.reading_id AND NOT r.withdrawn AND r.lon IS NOT NULL AND r.lat IS NOT NULL
            JOIN placement p ON p.reading_id = r.id AND p.current AND p.state = 'review'
            WHERE ${onPlacement(scope, 'p')} ORDER BY r.id, -class_rank(n.class)
          ) worst ORDER BY -class_rank(worst.class), worst.reading_id LIMIT ${MOST_UNSETTLED}
        ) u) AS unsettled,
        (SELECT CASE WHEN count(*) > 0 THEN jsonb_build_array(min(bbox[1]), min(bbox[2]), max(bbox[3]), max(bbox[4])) END
          FROM section WHERE ${onCircuit(scope, 'circuit_id')}) AS network_bbox`),
  ])
  if (!row) throw new Error('The store holds no data version. Run the migrations.')
  return { ...row, policy_version: policy.version, counts }
}

/** Part of every tile's ETag. */
export async function dataVersion(_scope: Scope, db: Db = database()): Promise<number> {
  return (await db.row<{ version: number }>(sql`SELECT version FROM data_version`))?.version ?? 0
}

/** Raised within the transaction of every change of what maps and lists show. */
export async function raiseDataVersion(_scope: Scope, db: Db): Promise<void> {
  await db.run(sql`UPDATE data_version SET version = version + 1`)
}
