import type { Network } from '../network/network'
import type { PlacingOptions, PointToPlace, TrackSummary } from '../types'
import type { Gathered } from './gather'
import { matchTrack, type TrackInput } from './match-track'
import { anyChoice, estimateSigmaScale, estimateSwitchShare } from './stream-habits'
import { estimateBetaM, TrackChain } from './track-chain'
import { findTracks, type Stream } from './tracks'
import { weighAlone } from './weigh'

/** A crew that changes the circuit this often follows none: its readings stand alone. */
const IN_TURN_SHARE = 0.1

/** How each reading came by its probabilities. */
export const BY = { self: 0, track: 1, shortTrack: 2, residuals: 3, inTurn: 4 } as const

export interface Matched {
  tracks: TrackSummary[]
  by: Uint8Array
  /** Track of each reading as an index in `tracks`, -1: none. */
  trackOf: Int32Array
}

/** Gives every candidate of every reading its probability: of its track where there is one that fits, else of itself. */
export function matchAll(network: Network, points: readonly PointToPlace[], gathered: Gathered, passes: Int32Array, options: PlacingOptions): Matched {
  const matched: Matched = { tracks: [], by: new Uint8Array(points.length), trackOf: new Int32Array(points.length).fill(-1) }
  const chain = new TrackChain(network, points, gathered.candidates)
  const scale = new Float64Array(points.length).fill(1)
  for (const stream of findTracks(points, gathered, passes, options)) matchStream(chain, stream, points, gathered, options, matched, scale)
  points.forEach((point, i) => {
    if (matched.by[i] !== BY.track) weighAlone(point, i, scale[i]!, gathered, options)
  })
  return matched
}

function matchStream(
  chain: TrackChain, stream: Stream, points: readonly PointToPlace[], gathered: Gathered, options: PlacingOptions, matched: Matched, scale: Float64Array,
): void {
  const { readings, trackStart, platform } = stream
  const sigmaScale = estimateSigmaScale(stream, gathered)
  for (const reading of readings) scale[reading] = sigmaScale
  const betaM = estimateBetaM(points, gathered.candidates, readings, trackStart)
  const input = { points, gathered, options, readings, platform, sigmaScale }
  const choice = anyChoice(readings, 0, readings.length, gathered)
  const switchShare = choice && !platform ? estimateSwitchShare(chain, stream, input, betaM) : options.switchShare
  for (let track = 0; track + 1 < trackStart.length; track++) {
    const [from, to] = [trackStart[track]!, trackStart[track + 1]!]
    if (to - from < options.minTrackReadings) mark(readings, from, to, matched, BY.shortTrack)
    else if (switchShare >= IN_TURN_SHARE) mark(readings, from, to, matched, BY.inTurn)
    else matchOne(chain, { ...input, from, to }, `${stream.key} #${track + 1}`, betaM, Math.min(switchShare, 0.02), matched)
  }
}

function matchOne(chain: TrackChain, input: TrackInput, key: string, betaM: number, switchShare: number, matched: Matched): void {
  const { readings, from, to } = input
  chain.lay(readings, from, to, betaM)
  chain.setSwitchShare(switchShare)
  const { offsetM, chiSquare, degrees, fits } = matchTrack(chain, input)
  mark(readings, from, to, matched, fits ? BY.track : BY.residuals)
  matched.tracks.push({ key, count: to - from, estimatedOffsetM: offsetM, chiSquare, degreesOfFreedom: degrees, matched: fits })
}

function mark(readings: Int32Array, from: number, to: number, matched: Matched, by: number): void {
  for (let at = from; at < to; at++) {
    matched.by[readings[at]!] = by
    if (by === BY.track || by === BY.residuals) matched.trackOf[readings[at]!] = matched.tracks.length
  }
}
