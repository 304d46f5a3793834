import type { PlacementReason } from '../types'
import { fault } from './declaration'
import type { Gathered } from './gather'
import type { Given } from './given'
import { sharesAlone } from './weigh'

/** A circuit that is less likely than this by the position is not named as another one. */
const WORTH_NAMING = 0.05

/**
 * Of a reading that its track put on a circuit: which others its own position would leave open, where that alone would have asked a
 * person. Undefined where the position alone is clear.
 */
export function circuitByTrack(
  { network: { sections }, points, options }: Given, gathered: Gathered, sigmaScale: number, i: number, best: number,
): PlacementReason | undefined {
  const { start, section } = gathered.candidates
  if (start[i + 1]! - start[i]! < 2) return undefined
  const shares = new Map<string, number>()
  sharesAlone(points[i]!, i, sigmaScale, gathered, options).forEach((share, at) => {
    const { circuit } = sections[section[start[i]! + at]!]!
    shares.set(circuit, (shares.get(circuit) ?? 0) + share)
  })
  const { circuit } = sections[section[best]!]!
  const others = [...shares].filter(([name, share]) => name !== circuit && share >= WORTH_NAMING).sort(([, a], [, b]) => b - a)
  if (shares.get(circuit)! >= options.minProbability || others.length === 0) return undefined
  return fault('circuit-by-track', { circuit, others: others.map(([name]) => name).join(', ') })
}
