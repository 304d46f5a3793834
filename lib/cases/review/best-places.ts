import type { StayReason } from '@/lib/contract/review-acts'
import type { PlacementCandidate } from '@/lib/geo'
import { spansAt, splicesAt, type ChosenRow, type PlaceRow } from '@/lib/store/review-acts'
import type { Scope } from '@/lib/store/scope'
import type { Db } from '@/lib/store/transaction'
import { APART_M, bestOf, NewPlaces } from './best-of-each'

export interface Accepted {
  row: ChosenRow
  at: PlacementCandidate
  span: PlaceRow
  /** Null: a new one. */
  spliceId: number | null
}

/** The best places of waiting readings on the lines and splices as they are now, batch after batch: a preview and the act itself ask alike. */
export class BestPlaces {
  private readonly fresh = new NewPlaces()

  constructor(private readonly scope: Scope, private readonly db: Db) {}

  async of(rows: readonly ChosenRow[]): Promise<{ accepted: Accepted[]; stays: Map<StayReason, number> }> {
    const stays = new Map<StayReason, number>()
    const stay = (why: StayReason): void => void stays.set(why, (stays.get(why) ?? 0) + 1)
    const chosen = rows.flatMap((row) => {
      const best = bestOf({ isUrgent: row.urgent, cause: row.cause, phase: row.phase, candidates: row.candidates })
      if ('at' in best) return [{ row, ...best }]
      stay(best.stays)
      return []
    })
    const spans = await spansAt(this.scope, chosen.map(({ row, at }) => ({ sectionId: at.sectionId, lineDistanceM: at.lineDistanceM, phase: row.phase })), APART_M, this.db)
    const splices = await splicesAt(this.scope, chosen.flatMap(({ spliceId }) => (spliceId === null ? [] : [spliceId])), this.db)
    const accepted = chosen.flatMap(({ row, at, spliceId }, n): Accepted[] => {
      const span = spans.get(n)
      const known = spliceId === null ? undefined : splices.get(spliceId)
      if (span?.circuit_id !== at.circuitId || (spliceId !== null && known?.circuitId !== at.circuitId)) {
        stay('line-changed')
        return []
      }
      if (spliceId === null && (span.is_beside || !this.fresh.take(at.sectionId, at.lineDistanceM, row.phase))) {
        stay('beside-another')
        return []
      }
      return [{ row, at, span, spliceId }]
    })
    return { accepted, stays }
  }
}
