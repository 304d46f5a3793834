import type { PlacingOptions } from '../types'
import type { Gathered } from './gather'
import { median } from './track-chain'
import { PLATFORM_SPREAD_M } from './weigh'

/** One track of a stream: a run of its readings in time order. */
export interface TrackInput {
  gathered: Gathered
  options: PlacingOptions
  readings: Int32Array
  from: number
  to: number
  platform: boolean
  /** How much larger than claimed the stream's sigma is. */
  sigmaScale: number
}

/** The sigma of the track's reading in the middle, metres. */
export function typicalSigmaM({ gathered, readings, from, to, sigmaScale }: TrackInput): number {
  const sigmas = new Float64Array(to - from)
  for (let t = 0; t < sigmas.length; t++) sigmas[t] = gathered.sigmaM[readings[from + t]!]! * sigmaScale
  return median(sigmas)
}

/** One standard deviation of what all readings of the track may be off together, metres. */
export const spreadOfM = ({ platform, options }: TrackInput, sigmaM: number): number =>
  platform ? PLATFORM_SPREAD_M : options.sharedSigmaShare * sigmaM
