/**
 * A hidden Markov model over steps of few states each, in flat columns that are reused from track to track.
 * State s of step t is `start[t] + s`; the transition from state a of step t − 1 to state b of step t is
 * `moveStart[t] + a · size(t) + b`. Emissions and transitions are relative weights, not logarithms.
 */
export interface Chain {
  steps: number
  start: Int32Array
  moveStart: Int32Array
  emission: Float64Array
  move: Float64Array
}

export interface Scratch {
  forward: Float64Array
  backward: Float64Array
  posterior: Float64Array
  /** Sum of each step's weights before scaling. */
  scale: Float64Array
}

/**
 * Forward-backward: share of each state given all steps, written to `posterior`. Returns the logarithm of the whole
 * chain's weight. All first states are equally likely. Scaled at every step, so long chains do not underflow.
 */
export function forwardBackward(chain: Chain, scratch: Scratch, posterior: Float64Array): number {
  const { steps, start, moveStart, emission, move } = chain
  const { forward, backward, scale } = scratch
  let logWeight = 0
  for (let t = 0; t < steps; t++) {
    const first = start[t]!
    const size = start[t + 1]! - first
    let sum = 0
    for (let b = 0; b < size; b++) {
      const weight = emission[first + b]! * (t === 0 ? 1 / size : arriving(chain, forward, t, b))
      forward[first + b] = weight
      sum += weight
    }
    scale[t] = sum
    logWeight += Math.log(sum)
    for (let b = 0; b < size; b++) forward[first + b]! /= sum
  }
  backward.fill(1, start[steps - 1]!, start[steps]!)
  for (let t = steps - 1; t > 0; t--) {
    const first = start[t]!
    const size = start[t + 1]! - first
    for (let a = start[t - 1]!, row = moveStart[t]!; a < first; a++, row += size) {
      let sum = 0
      for (let b = 0; b < size; b++) sum += move[row + b]! * emission[first + b]! * backward[first + b]!
      backward[a] = sum / scale[t]!
    }
  }
  for (let s = 0; s < start[steps]!; s++) posterior[s] = forward[s]! * backward[s]!
  return logWeight
}

function arriving({ start, moveStart, move }: Chain, forward: Float64Array, t: number, b: number): number {
  const size = start[t + 1]! - start[t]!
  let sum = 0
  for (let a = start[t - 1]!, at = moveStart[t]! + b; a < start[t]!; a++, at += size) sum += forward[a]! * move[at]!
  return sum
}

/**
 * Share of the transition from state a of step t − 1 to state b of step t given all steps; needs the scratch as
 * forwardBackward left it.
 */
export function moveShare(chain: Chain, scratch: Scratch, t: number, a: number, b: number): number {
  const from = chain.start[t - 1]! + a
  const to = chain.start[t]! + b
  const size = chain.start[t + 1]! - chain.start[t]!
  const weight = chain.move[chain.moveStart[t]! + a * size + b]! * chain.emission[to]!
  return (scratch.forward[from]! * weight * scratch.backward[to]!) / scratch.scale[t]!
}

/** The likeliest path as states per step, written to `path`, with the logarithm of its weight (Viterbi). */
export function viterbi(chain: Chain, path: Int32Array): number {
  const { steps, start, moveStart, emission, move } = chain
  const best = new Float64Array(start[steps]!)
  const from = new Int32Array(start[steps]!)
  for (let s = 0; s < start[1]!; s++) best[s] = Math.log(emission[s]! / start[1]!)
  for (let t = 1; t < steps; t++) {
    const first = start[t]!
    const size = start[t + 1]! - first
    for (let b = 0; b < size; b++) {
      best[first + b] = -Infinity
      for (let a = start[t - 1]!, at = moveStart[t]! + b; a < first; a++, at += size) {
        const weight = best[a]! + Math.log(move[at]!)
        if (weight > best[first + b]!) {
          best[first + b] = weight
          from[first + b] = a
        }
      }
      best[first + b]! += Math.log(emission[first + b]!)
    }
  }
  let state = start[steps - 1]!
  for (let s = state; s < start[steps]!; s++) if (best[s]! > best[state]!) state = s
  const weight = best[state]!
  for (let t = steps - 1; t >= 0; t--) {
    path[t] = state - start[t]!
    state = from[state]!
  }
  return weight
}
