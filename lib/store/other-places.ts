import type { SpliceDetail } from '@/lib/contract/contract'
import type { PlacementCandidate } from '@/lib/geo/types'
import { positionTextOf } from './position'
import { onPlacement, type Scope } from './scope'
import { sql } from './sql/sql'
import type { Db } from './transaction'

/** Nearer to the place that was chosen than this, metres, a candidate is that place. */
const SAME_M = 1

interface Row { reading_id: number; circuit_id: number; phase: string | null; line_distance_m: number; candidates: PlacementCandidate[] }

/** Where else the readings of a splice may have been taken, of those that left a doubt worth keeping; nothing of circuits outside the scope. */
export async function otherPlacesOf(scope: Scope, spliceId: number, db: Db): Promise<SpliceDetail['other_places']> {
  const [rows, position] = await Promise.all([
    db.rows<Row>(sql`
      SELECT p.reading_id, p.circuit_id, r.phase, p.line_distance_m, p.candidates
      FROM placement p JOIN reading r ON r.id = p.reading_id
      WHERE p.splice_id = ${spliceId} AND p.state = 'placed' AND p.current AND NOT r.withdrawn AND json_array_length(p.candidates) > 1 AND ${onPlacement(scope, 'p')}
      ORDER BY r.taken_at DESC NULLS LAST, r.id DESC LIMIT 100`),
    positionTextOf(scope, db),
  ])
  const seen = (id: number) => scope.circuitIds === null || scope.circuitIds.includes(id)
  return rows.flatMap(({ reading_id, circuit_id, phase, line_distance_m, candidates }) => {
    const places = candidates.filter((one) => seen(one.circuitId) && (one.circuitId !== circuit_id || Math.abs(one.lineDistanceM - line_distance_m) > SAME_M))
      .map((one) => ({
        circuit_id: one.circuitId, circuit: one.circuit, probability: one.probability,
        position_text: position({
          structure_back: one.structureBack ?? null, structure_ahead: one.structureAhead ?? null, offset_m: one.offsetFromStructureM,
          line_distance_m: one.lineDistanceM, phase, position: null, circuit_side: null, subconductor: null,
        }),
      }))
    return places.length === 0 ? [] : [{ reading_id, places }]
  })
}
