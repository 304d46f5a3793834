import type { Network } from '../network/network'
import { pieceOfSpan, spanAt } from '../network/on-section'
import type { CandidateList } from './candidate-list'

const SAME_LINE_M = 1
/** Cosine of about 8 degrees. */
const PARALLEL = 0.99

/**
 * A candidate of another circuit that runs along the same centreline, where for one of both nobody knows on which side of
 * the structures it hangs: position cannot tell such circuits apart. What the reading declares can.
 */
export function sharedWithoutOffset(network: Network, candidates: CandidateList, reading: number, best: number): number | undefined {
  const one = centreline(network, candidates, best)
  for (let c = candidates.start[reading]!; c < candidates.start[reading + 1]!; c++) {
    if (c === best || candidates.declared[c]! < candidates.declared[best]!) continue
    const other = centreline(network, candidates, c)
    if (other.circuitId === one.circuitId || (one.known && other.known)) continue
    const along = one.east * other.east + one.north * other.north
    if (Math.abs(along) < PARALLEL) continue
    if (Math.abs(one.besideM - Math.sign(along) * other.besideM) <= SAME_LINE_M) return c
  }
  return undefined
}

function centreline(network: Network, candidates: CandidateList, candidate: number) {
  const { pieces, sections } = network
  const section = candidates.section[candidate]!
  const { circuitId, lateralOffsetM } = sections[section]!
  let piece = candidates.piece[candidate]!
  if (piece < 0) {
    const span = spanAt(network, section, candidates.lineDistanceM[candidate]!)
    piece = span === undefined ? 0 : pieceOfSpan(network, span, candidates.lineDistanceM[candidate]!)
  }
  const lengthM = Math.hypot(pieces.eastM[piece]!, pieces.northM[piece]!) || 1
  return {
    circuitId,
    known: lateralOffsetM !== undefined,
    besideM: candidates.offsetM[candidate]! + (lateralOffsetM ?? 0),
    east: pieces.eastM[piece]! / lengthM,
    north: pieces.northM[piece]! / lengthM,
  }
}
