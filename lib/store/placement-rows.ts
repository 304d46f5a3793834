import type { PlacementCandidate, PlacementOutcome } from '@/lib/geo'
import { BinaryRows, type CopyType } from './binary-rows'
import { copyTypes, sendBytes, type UnderWay } from './copy'
import { mustCoverEverything, type Scope } from './scope'
import type { Tx } from './transaction'

// The splice comes last: it may be a new one whose number is known only when every reading has its place.
const COLUMNS = ['reading_id', 'import_id', 'state', 'method', 'circuit_id', 'section_id', 'span_id', 'line_distance_m', 'lon', 'lat', 'offset_m',
  'probability', 'reasons', 'candidates', 'splice_id'] as const

/** Alternatives less likely than this are not worth keeping with a reading that found its place. */
const WORTH_KEEPING = 0.01

/** Rows are kept in blocks of this size, which are used over and over. */
const BLOCK_BYTES = 1 << 20

/** Outcomes as the bytes COPY takes: a long import's placements fit in memory that way. */
export class PlacementRows {
  private readonly blocks: BinaryRows[] = []
  private block = 0
  /** Where the splice of a row belongs, and which new one it is. */
  private readonly open: { block: number; at: number; fresh: number }[] = []

  private constructor(private readonly importId: number, private readonly types: readonly CopyType[]) {}

  static async of(importId: number, tx: Tx): Promise<PlacementRows> {
    return new PlacementRows(importId, await copyTypes(tx, 'placement', COLUMNS))
  }

  /** Ready for the next. */
  clear(): void {
    this.block = 0
    for (const block of this.blocks) block.clear()
  }

  add(readingId: number, outcome: PlacementOutcome, splice: { known: number } | { fresh: number } | null): void {
    const at = outcome.chosen
    const rows = this.roomy()
    rows.add([
      readingId, this.importId, outcome.state, outcome.method, at?.circuitId, at?.sectionId, at?.spanId, at?.lineDistanceM, at?.lon, at?.lat, at?.offsetM,
      outcome.probability, { json: outcome.reasons }, { json: kept(outcome) }, splice && ('known' in splice ? splice.known : 0),
    ])
    if (splice && 'fresh' in splice) this.open.push({ block: this.block, at: rows.lastInt4(), fresh: splice.fresh })
  }

  /** Hands them all over; `newIds` are the numbers that the new splices got. They must not be added to until it is done. */
  async send(scope: Scope, tx: Tx, newIds: readonly number[]): Promise<UnderWay> {
    mustCoverEverything(scope)
    for (const { block, at, fresh } of this.open) this.blocks[block]?.setInt4(at, newIds[fresh] ?? 0)
    this.open.length = 0
    let last: UnderWay = { done: Promise.resolve() }
    for (const block of this.blocks) {
      if (block.count === 0) continue
      await last.done
      last = await sendBytes(tx, 'placement', COLUMNS, block.view())
    }
    return last
  }

  private roomy(): BinaryRows {
    const last = this.blocks[this.block]
    if (last && last.length < BLOCK_BYTES * 0.9) return last
    if (last) this.block++
    return this.blocks[this.block] ??= new BinaryRows(this.types, BLOCK_BYTES)
  }
}

function kept({ state, candidates }: PlacementOutcome): readonly PlacementCandidate[] {
  if (state === 'review') return candidates
  return candidates.some((other, i) => i > 0 && other.probability >= WORTH_KEEPING) ? candidates : []
}
