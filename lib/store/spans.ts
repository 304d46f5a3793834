import { onCircuit, type Scope } from './scope'
import { sql } from './sql/sql'
import type { Db } from './transaction'

export interface SpanAt { id: number; circuit_id: number; section_id: number; structure_back_id: number | null; start_m: number; end_m: number }

/** The span of a section that holds a line distance, as the network is now. Undefined where the section is no more. */
export async function spanAt(scope: Scope, sectionId: number, lineDistanceM: number, db: Db): Promise<SpanAt | undefined> {
  return db.row<SpanAt>(sql`
    SELECT sp.id, sec.circuit_id, sp.section_id, sp.structure_back_id, sp.start_m, sp.end_m
    FROM span sp JOIN section sec ON sec.id = sp.section_id
    WHERE sp.section_id = ${sectionId} AND ${onCircuit(scope, 'sec.circuit_id')}
    ORDER BY sp.start_m <= ${lineDistanceM} DESC, CASE WHEN sp.start_m <= ${lineDistanceM} THEN -sp.start_m ELSE sp.start_m END LIMIT 1`)
}
