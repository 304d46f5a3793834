import { reviewCause, type ReviewCause } from '@/lib/geo'
import type { PlacementCandidate, PlacementMethod, PlacementReason } from '@/lib/geo/types'
import { mustCoverEverything, onPlacement, type Scope } from './scope'
import { sql } from './sql/sql'
import type { Db } from './transaction'

export type PlacementState = 'placed' | 'review' | 'rejected'

/** Where a reading belongs; without a place while nobody knows. */
export interface NewPlacement {
  readingId: number
  state: PlacementState
  method: PlacementMethod
  place: { circuitId: number; sectionId: number; spanId: number; lineDistanceM: number; lon: number; lat: number; offsetM: number } | null
  spliceId: number | null
  probability: number | null
  reasons: readonly PlacementReason[]
  candidates: readonly PlacementCandidate[]
}

/** The current placement of a reading, held against other decisions until the transaction ends. */
export interface CurrentPlacement {
  id: number
  reading_id: number
  import_id: number
  state: PlacementState
  method: PlacementMethod
  circuit_id: number | null
  splice_id: number | null
  supersedes_id: number | null
  candidates: PlacementCandidate[]
}

export async function lockPlacement(scope: Scope, readingId: number, db: Db): Promise<CurrentPlacement | undefined> {
  return db.row<CurrentPlacement>(sql`
    SELECT p.id, p.reading_id, r.import_id, p.state, p.method, p.circuit_id, p.splice_id, p.supersedes_id, p.candidates
    FROM placement p JOIN reading r ON r.id = p.reading_id
    WHERE p.reading_id = ${readingId} AND p.current AND NOT r.withdrawn AND ${onPlacement(scope, 'p')} FOR NO KEY UPDATE OF p`)
}

/** Another placement takes the place of the one that stood. `supersedesId`: what a later taking back returns to. */
export async function supersedePlacement(
  scope: Scope, old: CurrentPlacement, placement: NewPlacement, by: { supersedesId: number | null; decidedBy: string | null }, db: Db,
): Promise<void> {
  const at = placement.place
  await db.run(sql`UPDATE placement p SET current = FALSE WHERE id = ${old.id} AND ${onPlacement(scope, 'p')}`)
  await db.run(sql`
    INSERT INTO placement (reading_id, state, circuit_id, section_id, span_id, splice_id, line_distance_m, lon, lat, offset_m, probability, method,
      reasons, review_cause, candidates, import_id, supersedes_id, decided_by)
    VALUES (${old.reading_id}, ${placement.state}, ${at?.circuitId ?? null}, ${at?.sectionId ?? null}, ${at?.spanId ?? null}, ${placement.spliceId},
      ${at?.lineDistanceM ?? null}, ${at?.lon ?? null}, ${at?.lat ?? null}, ${at?.offsetM ?? null}, ${placement.probability}, ${placement.method},
      ${JSON.stringify(placement.reasons)}::json, ${causeOf(placement) ?? null}, ${JSON.stringify(placement.candidates)}::json, ${old.import_id}, ${by.supersedesId}, ${by.decidedBy})`)
}

/** Why a placement waits for a person; undefined where it does not. */
export const causeOf = ({ state, reasons, candidates }: Pick<NewPlacement, 'state' | 'reasons' | 'candidates'>): ReviewCause | undefined =>
  (state === 'review' ? reviewCause(reasons, candidates) : undefined)

/** A placement that was superseded, as it was. */
export interface EarlierPlacement extends NewPlacement { supersedesId: number | null; decidedBy: string | null }

interface PlacementRow {
  reading_id: number; state: PlacementState; method: PlacementMethod; circuit_id: number | null; section_id: number | null; span_id: number | null
  line_distance_m: number | null; lon: number | null; lat: number | null; offset_m: number | null; splice_id: number | null; probability: number | null
  reasons: PlacementReason[]; candidates: PlacementCandidate[]; supersedes_id: number | null; decided_by: string | null
}

export async function earlierPlacement(scope: Scope, id: number, db: Db): Promise<EarlierPlacement | undefined> {
  const row = await db.row<PlacementRow>(sql`
    SELECT reading_id, state, method, circuit_id, section_id, span_id, line_distance_m, lon, lat, offset_m, splice_id, probability, reasons, candidates,
      supersedes_id, decided_by
    FROM placement p WHERE id = ${id} AND ${onPlacement(scope, 'p')}`)
  if (!row) return undefined
  const { circuit_id: circuitId, section_id: sectionId, span_id: spanId, line_distance_m: lineDistanceM } = row
  const hasPlace = circuitId !== null && sectionId !== null && spanId !== null && lineDistanceM !== null
  return {
    readingId: row.reading_id, state: row.state, method: row.method, spliceId: row.splice_id, probability: row.probability, reasons: row.reasons,
    candidates: row.candidates, supersedesId: row.supersedes_id, decidedBy: row.decided_by,
    place: hasPlace ? { circuitId, sectionId, spanId, lineDistanceM, lon: row.lon ?? 0, lat: row.lat ?? 0, offsetM: row.offset_m ?? 0 } : null,
  }
}

/** Placements of an import's readings end with them. Returns the splices they stood on. */
export async function endPlacements(scope: Scope, importId: number, db: Db): Promise<number[]> {
  mustCoverEverything(scope)
  const rows = await db.rows<{ splice_id: number }>(sql`
    WITH ended AS (
      UPDATE placement SET current = FALSE WHERE import_id = ${importId} AND current RETURNING splice_id
    ) SELECT DISTINCT splice_id FROM ended WHERE splice_id IS NOT NULL`)
  return rows.map((row) => row.splice_id)
}
