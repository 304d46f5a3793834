import type { Gathered } from './gather'
import { forwardBackward, moveShare } from './hmm'
import { setEmissions } from './match-track'
import { median, type TrackChain } from './track-chain'
import type { TrackInput } from './track-input'
import type { Stream } from './tracks'

/** The assumed share of changes counts as much as this many steps of the survey itself. */
const ASSUMED_STEPS = 10
/** More readings than this teach nothing new about how often a crew changes the circuit. */
const ENOUGH_READINGS = 20_000
const MOST_ROUNDS = 12
/** Half: the sequence says nothing. */
const MOST_SWITCH_SHARE = 0.5

const SAME_SPOT_M = 1
const LEAST_ALONE = 20
const WORTH_SCALING = 1.25

/**
 * How much larger the spread of a stream's positions is than it claims: 1.4826 times the median distance (Newson and Krumm 2009) over
 * readings with only one line in reach, in units of their sigma. 1 where it is smaller, or too few lie alone.
 */
export function estimateSigmaScale(stream: Stream, { candidates, sigmaM }: Gathered): number {
  if (stream.platform) return 1
  const lone: number[] = []
  for (const reading of stream.readings) {
    const first = candidates.start[reading]!
    if (candidates.start[reading + 1] === first + 1) lone.push(Math.abs(candidates.offsetM[first]!) / sigmaM[reading]!)
  }
  const scale = lone.length < LEAST_ALONE ? 1 : 1.4826 * median(lone)
  return scale > WORTH_SCALING ? scale : 1
}

/**
 * Share of steps at which this crew changes the circuit, by expectation and maximisation from a rare and from a
 * frequent start; the likelier end wins. A crew that takes both circuits in turn shows it here, and its readings are
 * then not pressed into one.
 */
export function estimateSwitchShare(chain: TrackChain, stream: Stream, input: Omit<TrackInput, 'from' | 'to'>, betaM: number): number {
  const { options } = input
  const rare = climb(chain, stream, input, betaM, options.switchShare)
  const often = climb(chain, stream, input, betaM, 0.3)
  const best = often.log > rare.log ? often.share : rare.share
  return Math.min(Math.max(best, options.switchShare), MOST_SWITCH_SHARE)
}

interface Climb {
  share: number
  log: number
}

function climb(chain: TrackChain, stream: Stream, input: Omit<TrackInput, 'from' | 'to'>, betaM: number, startShare: number): Climb {
  const assumed = input.options.switchShare
  let share = startShare
  let log = -Infinity
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const { changes, moves, logWeight } = expectedChanges(chain, stream, input, betaM, share)
    if (moves === 0) return { share: assumed, log: 0 }
    log = logWeight + ASSUMED_STEPS * (assumed * Math.log(share) + (1 - assumed) * Math.log(1 - share))
    const next = Math.min(Math.max((ASSUMED_STEPS * assumed + changes) / (ASSUMED_STEPS + moves), 1e-6), 0.999)
    const settled = Math.abs(next - share) < 0.02 * share
    share = next
    if (settled) break
  }
  return { share, log }
}

function expectedChanges(chain: TrackChain, stream: Stream, input: Omit<TrackInput, 'from' | 'to'>, betaM: number, share: number) {
  const { readings, trackStart } = stream
  let [changes, moves, logWeight, seen] = [0, 0, 0, 0]
  for (let track = 0; track + 1 < trackStart.length && seen < ENOUGH_READINGS; track++) {
    const [from, to] = [trackStart[track]!, trackStart[track + 1]!]
    if (to - from < 2 || !anyChoice(readings, from, to, input.gathered)) continue
    seen += to - from
    chain.lay(readings, from, to, betaM)
    chain.setSwitchShare(share)
    setEmissions(chain, { ...input, from, to }, 0)
    logWeight += forwardBackward(chain, chain.scratch, chain.scratch.posterior)
    for (let t = 1; t < chain.steps; t++) {
      if (chain.size(t - 1) < 2 && chain.size(t) < 2) continue
      moves++
      for (let a = 0, move = chain.moveStart[t]!; a < chain.size(t - 1); a++) {
        for (let b = 0; b < chain.size(t); b++, move++) {
          if (chain.changes[move] === 1 && !sameSpot(chain, input.gathered, t, a, b)) changes += moveShare(chain, chain.scratch, t, a, b)
        }
      }
    }
  }
  return { changes, moves, logWeight }
}

/** Circuits drawn on one line are not told apart: to pass from one to the other there is no change anybody could see. */
function sameSpot(chain: TrackChain, { candidates }: Gathered, t: number, a: number, b: number): boolean {
  const back = chain.candidate[chain.start[t - 1]! + a]!
  const to = chain.candidate[chain.start[t]! + b]!
  if (back < 0 || to < 0) return false
  const from = candidates.section[back]
  for (let s = chain.start[t]!; s < chain.start[t + 1]!; s++) {
    const c = chain.candidate[s]!
    if (c >= 0 && candidates.section[c] === from && Math.abs(candidates.offsetM[c]! - candidates.offsetM[to]!) < SAME_SPOT_M) return true
  }
  return false
}

/** Whether any reading of a run has more than one candidate. */
export function anyChoice(readings: Int32Array, from: number, to: number, { candidates }: Gathered): boolean {
  for (let at = from; at < to; at++) if (candidates.start[readings[at]! + 1]! - candidates.start[readings[at]!]! > 1) return true
  return false
}

