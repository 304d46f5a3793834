import { belongs, lineDensity, normalDensity, STRAY_DENSITY } from './emission'
import { forwardBackward, viterbi } from './hmm'
import { platformNodes, targetNodes } from './offset-nodes'
import { testResiduals, type MatchedTrack } from './residuals'
import { median, type TrackChain } from './track-chain'
import { spreadOfM, typicalSigmaM, type TrackInput } from './track-input'
import { declaredWeight, hasDeclared } from './weigh'

/** Writes the emission of every state, given an offset that the whole track shares. */
export function setEmissions(chain: TrackChain, input: TrackInput, offsetM: number): void {
  const { gathered, options, readings, from, sigmaScale } = input
  const { offsetM: besideM } = gathered.candidates
  for (let t = 0; t < chain.steps; t++) {
    const reading = readings[from + t]!
    const sigmaM = gathered.sigmaM[reading]! * sigmaScale
    const declared = hasDeclared(gathered, reading)
    for (let s = chain.start[t]!; s < chain.start[t + 1]!; s++) {
      const c = chain.candidate[s]!
      const density = c < 0 ? STRAY_DENSITY : lineDensity(besideM[c]! - offsetM, sigmaM) + STRAY_DENSITY
      chain.emission[s] = declaredWeight(gathered, c, declared, options) * density
    }
  }
}

/**
 * Matches one track as a sequence: forward-backward for each of a grid of offsets that all its readings may share,
 * weighted by their evidence, so that a doubt about the offset stays a doubt about the circuit. Writes the candidates'
 * probabilities. The chi-square of the likeliest path's residuals says whether the readings are a track at all.
 */
export function matchTrack(chain: TrackChain, input: TrackInput): MatchedTrack {
  const sigmaM = typicalSigmaM(input)
  const spreadM = spreadOfM(input, sigmaM)
  const nodes = input.platform ? platformNodes(chain, input, sigmaM) : targetNodes(spreadM, sigmaM, chain.steps)
  const posteriors = nodes.map(() => new Float64Array(chain.start[chain.steps]!))
  const logs = nodes.map((offsetM, n) => {
    setEmissions(chain, input, offsetM)
    return forwardBackward(chain, chain.scratch, posteriors[n]!) + Math.log(normalDensity(offsetM, Math.max(spreadM, 1e-3)))
  })
  const highest = Math.max(...logs)
  const weights = logs.map((log) => Math.exp(log - highest))
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  writeProbabilities(chain, input, nodes, weights.map((weight) => weight / total), posteriors)
  const likeliestM = nodes[logs.indexOf(highest)]!
  setEmissions(chain, input, likeliestM)
  const chosen = new Int32Array(chain.steps)
  viterbi(chain, chosen)
  for (let t = 0; t < chain.steps; t++) chosen[t] = chain.candidate[chain.start[t]! + chosen[t]!]!
  return testResiduals(input, chosen, likeliestM, spreadM)
}

/** A track with one candidate throughout needs no sequence: only whether each reading is near enough to it. */
export function matchPlainTrack(input: TrackInput): MatchedTrack {
  const { gathered: { candidates, sigmaM: sigmas }, readings, from, to, sigmaScale } = input
  const chosen = new Int32Array(to - from)
  for (let t = 0; t < chosen.length; t++) chosen[t] = candidates.start[readings[from + t]!]!
  const sigmaM = typicalSigmaM(input)
  const spreadM = spreadOfM(input, sigmaM)
  const middleM = median(Float64Array.from(chosen, (c) => candidates.offsetM[c]!))
  const likeliestM = input.platform ? middleM : Math.min(Math.max(middleM, -spreadM), spreadM)
  const matched = testResiduals(input, chosen, likeliestM, spreadM)
  for (let t = 0; t < chosen.length; t++) {
    const c = chosen[t]!
    candidates.probability[c] = belongs(candidates.offsetM[c]! - matched.offsetM, sigmas[readings[from + t]!]! * sigmaScale)
  }
  return matched
}

function writeProbabilities(chain: TrackChain, input: TrackInput, nodes: number[], weights: number[], posteriors: Float64Array[]): void {
  const { gathered, readings, from, sigmaScale } = input
  const { candidates } = gathered
  for (let t = 0; t < chain.steps; t++) {
    const sigmaM = gathered.sigmaM[readings[from + t]!]! * sigmaScale
    for (let s = chain.start[t]!; s < chain.start[t + 1]!; s++) {
      const c = chain.candidate[s]!
      if (c < 0) continue
      let probability = 0
      for (let n = 0; n < nodes.length; n++) {
        if (weights[n]! < 1e-9) continue
        probability += weights[n]! * posteriors[n]![s]! * belongs(candidates.offsetM[c]! - nodes[n]!, sigmaM)
      }
      candidates.probability[c] = probability
    }
  }
}
