import type { PlacementCandidate, PlacementOutcome } from '@/lib/geo'
import { copyLine, copyText } from './copy'
import { mustCoverEverything, type Scope } from './scope'
import type { Tx } from './transaction'

// The splice comes last: it may be a new one whose number is known only when every reading has its place.
const COLUMNS = ['reading_id', 'import_id', 'state', 'method', 'circuit_id', 'section_id', 'span_id', 'line_distance_m', 'lon', 'lat', 'offset_m',
  'probability', 'reasons', 'candidates', 'splice_id'] as const

/** Alternatives less likely than this are not worth keeping with a reading that found its place. */
const WORTH_KEEPING = 0.01

// Tenth of a millimetre, and as fine on the ground in degrees: the digits beyond say nothing.
const metres = (m: number): number => Math.round(m * 1e4) / 1e4
const degrees = (d: number): number => Math.round(d * 1e9) / 1e9

/** Outcomes as the text COPY takes, one line a reading: a long import's placements fit in memory that way. */
export class PlacementLines {
  private readonly heads: string[] = []
  /** Id of a known splice, or −1 − index of a new one, or 0. */
  private readonly splices: number[] = []

  constructor(private readonly importId: number) {}

  add(readingId: number, outcome: PlacementOutcome, splice: { known: number } | { fresh: number } | null): void {
    const at = outcome.chosen
    this.heads.push(copyLine([
      readingId, this.importId, outcome.state, outcome.method, at?.circuitId, at?.sectionId, at?.spanId, at && metres(at.lineDistanceM), at && degrees(at.lon),
      at && degrees(at.lat), at && metres(at.offsetM), outcome.probability, { json: outcome.reasons }, { json: kept(outcome) },
    ]).slice(0, -1))
    this.splices.push(splice === null ? 0 : 'known' in splice ? splice.known : -1 - splice.fresh)
  }

  /** Writes them all; `newIds` are the numbers that the new splices got. */
  async write(scope: Scope, tx: Tx, newIds: readonly number[]): Promise<void> {
    mustCoverEverything(scope)
    const { heads, splices } = this
    function* lines(): Generator<string> {
      for (let i = 0; i < heads.length; i++) {
        const splice = splices[i] ?? 0
        yield `${heads[i]}\t${splice > 0 ? splice : splice < 0 ? newIds[-1 - splice] : '\\N'}\n`
      }
    }
    await copyText(tx, 'placement', COLUMNS, lines())
  }
}

function kept({ state, candidates }: PlacementOutcome): readonly PlacementCandidate[] {
  if (state === 'review') return candidates
  return candidates.some((other, i) => i > 0 && other.probability >= WORTH_KEEPING) ? candidates : []
}
