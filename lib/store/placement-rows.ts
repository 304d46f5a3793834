import type { PlacementCandidate, PlacementOutcome } from '@/lib/geo'
import { BinaryRows, type CopyType } from './binary-rows'
import { copyTypes } from './copy'
import { CopyPump, type Block } from './copy-pump'
import { causeOf } from './placements'
import { mustCoverEverything, type Scope } from './scope'
import type { Tx } from './transaction'

const COLUMNS = ['reading_id', 'import_id', 'state', 'method', 'circuit_id', 'section_id', 'span_id', 'splice_id', 'line_distance_m', 'lon', 'lat',
  'offset_m', 'probability', 'reasons', 'review_cause', 'candidates'] as const

/** Alternatives less likely than this are not worth keeping with a reading that found its place. */
const WORTH_KEEPING = 0.01

const BLOCK_BYTES = 1 << 17

/** Writes outcomes by COPY while they are worked out. */
export class PlacementRows {
  private block: Block
  private readonly free: Block[] = []
  private readonly pump: CopyPump

  private constructor(private readonly importId: number, private readonly types: readonly CopyType[], tx: Tx) {
    this.block = this.emptyBlock()
    this.pump = new CopyPump(tx, 'placement', (block) => {
      block.rows.clear()
      this.free.push(block)
    })
  }

  static async of(scope: Scope, importId: number, tx: Tx): Promise<PlacementRows> {
    mustCoverEverything(scope)
    return new PlacementRows(importId, await copyTypes(tx, 'placement', COLUMNS), tx)
  }

  /** Whether there is so much that it should be sent before more is added. */
  get isFull(): boolean {
    return this.block.rows.length >= BLOCK_BYTES
  }

  add(readingId: number, outcome: PlacementOutcome, spliceId: number | undefined): void {
    const at = outcome.chosen
    this.block.rows.add([
      readingId, this.importId, outcome.state, outcome.method, at?.circuitId, at?.sectionId, at?.spanId, spliceId, at?.lineDistanceM, at?.lon, at?.lat,
      at?.offsetM, outcome.probability, { json: outcome.reasons }, causeOf(outcome), { json: kept(outcome) },
    ])
  }

  /** Sends what there is on its way. */
  async send(): Promise<void> {
    if (this.block.rows.count === 0) return
    const { block } = this
    this.block = this.emptyBlock()
    await this.pump.push(block)
  }

  /** Everything added so far is stored, and the transaction can be asked again. */
  async flush(): Promise<void> {
    await this.send()
    await this.pump.flush()
  }

  /** Gives up, so that the transaction can be rolled back. */
  breakOff(): Promise<void> {
    return this.pump.breakOff()
  }

  private emptyBlock(): Block {
    return this.free.pop() ?? { columns: COLUMNS, rows: new BinaryRows(this.types, BLOCK_BYTES * 1.25) }
  }
}

function kept({ state, candidates }: PlacementOutcome): readonly PlacementCandidate[] {
  if (state === 'review') return candidates
  return candidates.some((other, i) => i > 0 && other.probability >= WORTH_KEEPING) ? candidates : []
}
