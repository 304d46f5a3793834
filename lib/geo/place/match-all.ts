import type { PointToPlace, TrackSummary } from '../types'
import type { Gathered } from './gather'
import type { Given } from './given'
import { matchPlainTrack, matchTrack } from './match-track'
import { anyChoice, estimateSigmaScale, estimateSwitchShare } from './stream-habits'
import type { MatchedTrack } from './residuals'
import { estimateBetaM, TrackChain } from './track-chain'
import type { TrackInput } from './track-input'
import { findTracks, type Stream } from './tracks'
import { weighAlone } from './weigh'

/** A crew that changes the circuit this often follows none: its readings stand alone. */
const IN_TURN_SHARE = 0.1
/** Otherwise changes stay rare, so that a short run on the other circuit shows in the residuals instead of being believed. */
const MOST_TRACK_SHARE = 0.02

/** How each reading came by its probabilities. */
export const BY = { self: 0, track: 1, shortTrack: 2, residuals: 3, inTurn: 4 } as const

export interface Matched {
  tracks: TrackSummary[]
  by: Uint8Array
  /** Track of each reading as an index in `tracks`, -1: none. */
  trackOf: Int32Array
  /** How much larger than claimed each reading's sigma is. */
  sigmaScale: Float64Array
}

/** Gives every candidate of every reading its probability: of its track where there is one that fits, else of itself. */
export function matchAll(given: Given, gathered: Gathered): Matched {
  const count = given.points.length
  const matched: Matched = {
    tracks: [], by: new Uint8Array(count), trackOf: new Int32Array(count).fill(-1), sigmaScale: new Float64Array(count).fill(1),
  }
  const chain = new TrackChain(given.network, given.points, gathered.candidates)
  for (const stream of findTracks(given, gathered)) matchStream(chain, stream, given, gathered, matched)
  given.points.forEach((point: PointToPlace, i) => {
    if (matched.by[i] !== BY.track) weighAlone(point, i, matched.sigmaScale[i]!, gathered, given.options)
  })
  return matched
}

function matchStream(chain: TrackChain, stream: Stream, { points, options }: Given, gathered: Gathered, matched: Matched): void {
  const { readings, trackStart, platform } = stream
  const sigmaScale = estimateSigmaScale(stream, gathered)
  for (const reading of readings) matched.sigmaScale[reading] = sigmaScale
  const input = { gathered, options, readings, platform, sigmaScale }
  const choice = anyChoice(readings, 0, readings.length, gathered)
  const betaM = choice ? estimateBetaM(points, gathered.candidates, stream) : 0
  const switchShare = choice && !platform ? estimateSwitchShare(chain, stream, input, betaM) : options.switchShare
  for (let track = 0; track + 1 < trackStart.length; track++) {
    const [from, to] = [trackStart[track]!, trackStart[track + 1]!]
    if (to - from < options.minTrackReadings) mark(readings, from, to, matched, BY.shortTrack)
    else if (switchShare >= IN_TURN_SHARE) mark(readings, from, to, matched, BY.inTurn)
    else keep({ ...input, from, to }, matchRun(chain, { ...input, from, to }, betaM, switchShare), `${stream.key} #${track + 1}`, matched)
  }
}

function matchRun(chain: TrackChain, input: TrackInput, betaM: number, switchShare: number): MatchedTrack {
  const { readings, from, to } = input
  if (!anyChoice(readings, from, to, input.gathered)) return matchPlainTrack(input)
  chain.lay(readings, from, to, betaM)
  chain.setSwitchShare(Math.min(switchShare, MOST_TRACK_SHARE))
  return matchTrack(chain, input)
}

function keep({ readings, from, to }: TrackInput, track: MatchedTrack, key: string, matched: Matched): void {
  const { offsetM, chiSquare, degrees, fits } = track
  mark(readings, from, to, matched, fits ? BY.track : BY.residuals)
  matched.tracks.push({ key, count: to - from, estimatedOffsetM: offsetM, chiSquare, degreesOfFreedom: degrees, matched: fits })
}

function mark(readings: Int32Array, from: number, to: number, matched: Matched, by: number): void {
  for (let at = from; at < to; at++) {
    matched.by[readings[at]!] = by
    if (by === BY.track || by === BY.residuals) matched.trackOf[readings[at]!] = matched.tracks.length
  }
}
