import type { PlacingOptions, PointToPlace } from '../types'
import { lineDensity, STRAY_DENSITY } from './emission'
import type { Gathered } from './gather'

/** Observers beside the line keep this far off as a rule, to either side: 20 to 60 m by common practice. */
export const PLATFORM_SPREAD_M = 40

/** Weight that a reading's own declaration gives to one of its candidates; -1 is none of them. */
export function declaredWeight({ candidates }: Gathered, candidate: number, anyDeclared: boolean, options: PlacingOptions): number {
  if (!anyDeclared) return 1
  return candidates.declared[candidate] === 1 ? options.declaredShare : 1 - options.declaredShare
}

export function hasDeclared({ candidates }: Gathered, reading: number): boolean {
  for (let c = candidates.start[reading]!; c < candidates.start[reading + 1]!; c++) if (candidates.declared[c] === 1) return true
  return false
}

/** What all readings of a track may be off together, one standard deviation, metres. */
const sharedSigmaM = (point: PointToPlace, sigmaM: number, options: PlacingOptions): number =>
  point.positionOf === 'platform' ? PLATFORM_SPREAD_M : options.sharedSigmaShare * sigmaM

/** Probabilities of a reading's candidates from itself alone, its share of the common offset included. */
export function weighAlone(point: PointToPlace, reading: number, sigmaScale: number, gathered: Gathered, options: PlacingOptions): void {
  const { candidates } = gathered
  const [first, end] = [candidates.start[reading]!, candidates.start[reading + 1]!]
  if (gathered.hasPosition[reading] === 0) {
    for (let c = first; c < end; c++) candidates.probability[c] = options.declaredShare / (end - first)
    return
  }
  candidates.probability.set(sharesAlone(point, reading, sigmaScale, gathered, options), first)
}

/** What the reading itself says of each of its candidates, without the readings beside it. It has a position. */
export function sharesAlone(point: PointToPlace, reading: number, sigmaScale: number, gathered: Gathered, options: PlacingOptions): Float64Array {
  const { candidates } = gathered
  const [first, end] = [candidates.start[reading]!, candidates.start[reading + 1]!]
  const declared = hasDeclared(gathered, reading)
  const sigmaM = gathered.sigmaM[reading]! * sigmaScale
  const wholeSigmaM = Math.hypot(sigmaM, sharedSigmaM(point, sigmaM, options))
  const shares = new Float64Array(end - first)
  let sum = STRAY_DENSITY * (declared ? 1 - options.declaredShare : 1)
  for (let c = first; c < end; c++) {
    const weight = declaredWeight(gathered, c, declared, options) * lineDensity(candidates.offsetM[c]!, wholeSigmaM)
    shares[c - first] = weight
    sum += weight
  }
  return shares.map((weight) => weight / sum)
}
