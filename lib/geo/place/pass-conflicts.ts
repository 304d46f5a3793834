import { nameKey } from '../network/labels'
import type { PointToPlace } from '../types'
import { fault } from './declaration'
import { STATE, type Decisions } from './decide'
import type { Gathered } from './gather'
import type { Given } from './given'

/** Readings of one splice may lie this many reaches apart before they are two fittings. */
const SEPARATE_REACHES = 1.5

/**
 * Readings of one pass that lead to one known splice by their place alone, and yet differ in label, picture or by more
 * metres than accuracy explains, go to a person: only one of them can be its.
 */
export function reviewPassConflicts(given: Given, gathered: Gathered, decisions: Decisions): void {
  const { points, passes } = given
  const { row, named, state } = decisions
  const members = Int32Array.from(points.keys()).filter((i) => state[i] === STATE.known && named[i] === 0)
  members.sort((a, b) => row[a]! - row[b]! || passes[a]! - passes[b]! || atM(gathered, decisions, a) - atM(gathered, decisions, b) || a - b)
  for (let from = 0, to = 0; from < members.length; from = to) {
    const [first, pass] = [row[members[from]!], passes[members[from]!]]
    while (to < members.length && row[members[to]!] === first && passes[members[to]!] === pass) to++
    if (to - from > 1) reviewGroup(given, gathered, decisions, members.subarray(from, to))
  }
}

const atM = ({ candidates }: Gathered, { best }: Decisions, i: number): number => candidates.lineDistanceM[best[i]!]!

function reviewGroup({ points, chooser }: Given, gathered: Gathered, decisions: Decisions, group: Int32Array): void {
  const apartM = atM(gathered, decisions, group.at(-1)!) - atM(gathered, decisions, group[0]!)
  const sigmaM = group.reduce((largest, i) => Math.max(largest, gathered.sigmaM[i]!), 0)
  const separate = apartM > SEPARATE_REACHES * chooser.reachM(sigmaM)
  const differ = distinct(group, points)
  for (const i of group) {
    const { photo, spliceLabel } = points[i]!
    if (!separate && !(differ && (photo !== undefined || spliceLabel !== undefined))) continue
    decisions.state[i] = STATE.review
    decisions.reasons[i] = [fault('same-pass-different-label', { count: group.length, ...(separate && { apartM }) })]
  }
}

function distinct(group: Int32Array, points: readonly PointToPlace[]): boolean {
  const labels = new Set<string>()
  const photos = new Set<string>()
  for (const i of group) {
    const { photo, spliceLabel } = points[i]!
    if (spliceLabel !== undefined) labels.add(nameKey(spliceLabel))
    else if (photo !== undefined) photos.add(photo)
  }
  return labels.size + photos.size > 1
}
