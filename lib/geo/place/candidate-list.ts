import { wider } from './columns'

/** Candidates of all readings in columns that grow, so that a long import makes no object per candidate. */
export class CandidateList {
  count = 0
  section = new Int32Array(1024)
  /** -1: only the line distance is known. */
  piece = new Int32Array(1024)
  lineDistanceM = new Float64Array(1024)
  /** Left negative, looking ahead; 0 where the reading has no position. */
  offsetM = new Float64Array(1024)
  probability = new Float64Array(1024)
  /** 1: what the reading itself declares. */
  declared = new Uint8Array(1024)
  /** First candidate of each reading, and the count at the end. */
  readonly start: Int32Array
  private filled = 0

  constructor(readings: number) {
    this.start = new Int32Array(readings + 1)
  }

  add(section: number, piece: number, lineDistanceM: number, offsetM: number, declared: boolean): void {
    if (this.count === this.section.length) this.grow()
    const at = this.count++
    this.section[at] = section
    this.piece[at] = piece
    this.lineDistanceM[at] = lineDistanceM
    this.offsetM[at] = offsetM
    this.probability[at] = 0
    this.declared[at] = declared ? 1 : 0
  }

  /** Ends the candidates of the next reading. */
  close(): void {
    this.start[++this.filled] = this.count
  }

  private grow(): void {
    this.section = wider(this.section)
    this.piece = wider(this.piece)
    this.lineDistanceM = wider(this.lineDistanceM)
    this.offsetM = wider(this.offsetM)
    this.probability = wider(this.probability)
    this.declared = wider(this.declared)
  }
}
