import type { WaitingRow } from '@/lib/contract/waiting-row'
import { governingReason, isSureTold, reviewCause, type PlacementCandidate, type PlacementOutcome, type PointToPlace } from '@/lib/geo'
import { positionTextOf } from '@/lib/store/position'
import { reasonSentenceOf } from '@/lib/store/reason-sentence'
import type { Scope } from '@/lib/store/scope'
import type { Tx } from '@/lib/store/transaction'

/** So many are named in a report; the review has them all. */
const NAMED = 20

interface Waiting { row: number; outcome: PlacementOutcome; point: PointToPlace }

/** The first rows of a file that wait for review, with what a person is to decide. */
export class WaitingRows {
  private rows: Waiting[] = []

  look(outcome: PlacementOutcome, row: number, point: () => PointToPlace): void {
    if (outcome.state !== 'review') return
    this.rows.push({ row, outcome, point: point() })
    if (this.rows.length > 10 * NAMED) this.rows = this.first()
  }

  async json(scope: Scope, tx: Tx, lineOf: (row: number) => number | undefined): Promise<WaitingRow[]> {
    const sentence = await reasonSentenceOf(scope, tx)
    const position = await positionTextOf(scope, tx)
    const place = (one: PlacementCandidate, { lon, offsetFromStructureM, spanFraction, phase }: PointToPlace): string => position({
      structure_back: one.structureBack ?? null, structure_ahead: one.structureAhead ?? null,
      // A row that names structures alone does not say where between them.
      offset_m: (lon ?? offsetFromStructureM ?? spanFraction) === undefined ? null : one.offsetFromStructureM,
      line_distance_m: one.lineDistanceM, phase: phase ?? null, position: null, circuit_side: null, subconductor: null,
    })
    return this.first().map(({ row, outcome: { reasons, candidates }, point }) => {
      const reason = governingReason(reasons, candidates)
      return {
        row, line: lineOf(row) ?? null, reason: reason ? sentence(reason) : 'No place was found.',
        ...(isSureTold(reviewCause(reasons, candidates) ?? null) ? {} : { alike: true as const }),
        candidates: candidates.map((one) => ({ circuit: one.circuit, position_text: place(one, point), probability: one.probability })),
      }
    })
  }

  private first(): Waiting[] {
    return this.rows.sort((a, b) => a.row - b.row).slice(0, NAMED)
  }
}
