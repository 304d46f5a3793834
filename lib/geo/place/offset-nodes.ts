import { median, type TrackChain } from './track-chain'
import type { TrackInput } from './track-input'

const MOST_NODES = 11
/** Standard deviations of the common offset that are looked at. */
const NODE_REACH = 2.5

/** Offsets to try for a track of targets: evenly over the spread they may have, no finer than the track can tell. */
export function targetNodes(spreadM: number, sigmaM: number, steps: number): number[] {
  const wanted = 2 * Math.ceil((NODE_REACH * spreadM) / (sigmaM / Math.sqrt(steps))) + 1
  const count = Math.min(wanted, MOST_NODES)
  const stepM = (2 * NODE_REACH * spreadM) / (count - 1)
  return count < 3 ? [0] : Array.from({ length: count }, (_, i) => i * stepM - NODE_REACH * spreadM)
}

/** Offsets to try for a platform: about those that the sections in reach would ask for; elsewhere the evidence is nil. */
export function platformNodes(chain: TrackChain, { gathered: { candidates } }: TrackInput, sigmaM: number): number[] {
  const bySection = new Map<number, number[]>()
  for (let s = 0; s < chain.start[chain.steps]!; s++) {
    const c = chain.candidate[s]!
    if (c < 0) continue
    const offsets = bySection.get(candidates.section[c]!)
    if (offsets) offsets.push(candidates.offsetM[c]!)
    else bySection.set(candidates.section[c]!, [candidates.offsetM[c]!])
  }
  const longest = Math.max(0, ...[...bySection.values()].map((offsets) => offsets.length))
  const stepM = sigmaM / Math.sqrt(chain.steps)
  const nodes = [...bySection.values()]
    .filter((offsets) => offsets.length * 2 >= longest)
    .flatMap((offsets) => [-2, -1, 0, 1, 2].map((step) => median(offsets) + step * stepM))
    .sort((a, b) => a - b)
  return nodes.filter((offsetM, i) => i === 0 || offsetM - nodes[i - 1]! > stepM / 2)
}
