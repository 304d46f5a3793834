import type { PlacingOptions, PointToPlace } from '../types'
import { chiSquareTail } from './chi-square'
import { belongs, lineDensity, normalDensity, STRAY_DENSITY } from './emission'
import type { Gathered } from './gather'
import { forwardBackward, viterbi } from './hmm'
import { median, type TrackChain } from './track-chain'
import { declaredWeight, hasDeclared, PLATFORM_SPREAD_M } from './weigh'

/** Residuals this unlikely say that the readings are no track (issue of accuracy or of order). */
const CHI_SQUARE_SHARE = 0.01
const MOST_NODES = 11

export interface MatchedTrack {
  offsetM: number
  chiSquare: number
  degrees: number
  fits: boolean
}

export interface TrackInput {
  points: readonly PointToPlace[]
  gathered: Gathered
  options: PlacingOptions
  readings: Int32Array
  from: number
  to: number
  platform: boolean
  sigmaScale: number
}

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
      chain.emission[s] = declaredWeight(gathered, c, declared, options) * (lineDensity(besideM[c]! - offsetM, sigmaM) + STRAY_DENSITY)
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
  const spreadM = input.platform ? PLATFORM_SPREAD_M : input.options.sharedSigmaShare * sigmaM
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
  const likeliest = nodes[logs.indexOf(highest)] ?? 0
  setEmissions(chain, input, likeliest)
  return testResiduals(chain, input, likeliest, spreadM)
}

function typicalSigmaM({ gathered, readings, from, to, sigmaScale }: TrackInput): number {
  const sigmas = new Float64Array(to - from)
  for (let t = 0; t < sigmas.length; t++) sigmas[t] = gathered.sigmaM[readings[from + t]!]! * sigmaScale
  return median(sigmas)
}

/** Evenly over the spread that an offset of the positions may have, no finer than the track can tell. */
function targetNodes(spreadM: number, sigmaM: number, steps: number): number[] {
  const count = Math.min(2 * Math.ceil((2.5 * spreadM) / (sigmaM / Math.sqrt(steps))) + 1, MOST_NODES)
  return count < 3 ? [0] : Array.from({ length: count }, (_, i) => -2.5 * spreadM + (5 * spreadM * i) / (count - 1))
}

/** About the offset that each section in reach would ask for: anywhere else the evidence is nil. */
function platformNodes(chain: TrackChain, { gathered: { candidates } }: TrackInput, sigmaM: number): number[] {
  const bySection = new Map<number, number[]>()
  for (let s = 0; s < chain.start[chain.steps]!; s++) {
    const section = candidates.section[chain.candidate[s]!]!
    const offsets = bySection.get(section)
    if (offsets) offsets.push(candidates.offsetM[chain.candidate[s]!]!)
    else bySection.set(section, [candidates.offsetM[chain.candidate[s]!]!])
  }
  const stepM = sigmaM / Math.sqrt(chain.steps)
  const all = [...bySection.values()]
    .filter((offsets) => offsets.length * 2 >= chain.steps || bySection.size === 1)
    .flatMap((offsets) => [-2, -1, 0, 1, 2].map((step) => median(offsets) + step * stepM))
    .sort((a, b) => a - b)
  const apart = all.filter((offsetM, i) => i === 0 || offsetM - all[i - 1]! > stepM / 2)
  return apart.length > 0 ? apart : [0]
}

function writeProbabilities(chain: TrackChain, input: TrackInput, nodes: number[], weights: number[], posteriors: Float64Array[]): void {
  const { gathered, readings, from, sigmaScale } = input
  const { candidates } = gathered
  for (let t = 0; t < chain.steps; t++) {
    const sigmaM = gathered.sigmaM[readings[from + t]!]! * sigmaScale
    for (let s = chain.start[t]!; s < chain.start[t + 1]!; s++) {
      const c = chain.candidate[s]!
      let probability = 0
      for (let n = 0; n < nodes.length; n++) {
        if (weights[n]! < 1e-9) continue
        probability += weights[n]! * posteriors[n]![s]! * belongs(candidates.offsetM[c]! - nodes[n]!, sigmaM)
      }
      candidates.probability[c] = probability
    }
  }
}

function testResiduals(chain: TrackChain, input: TrackInput, likeliestM: number, spreadM: number): MatchedTrack {
  const { gathered, readings, from, sigmaScale, platform } = input
  const path = new Int32Array(chain.steps)
  viterbi(chain, path)
  let [weight, sum, squares, count] = [0, 0, 0, 0]
  for (let t = 0; t < chain.steps; t++) {
    const sigmaM = gathered.sigmaM[readings[from + t]!]! * sigmaScale
    const residualM = gathered.candidates.offsetM[chain.candidate[chain.start[t]! + path[t]!]!]!
    if (belongs(residualM - likeliestM, sigmaM) < 0.5) continue
    const w = 1 / (sigmaM * sigmaM)
    weight += w
    sum += w * residualM
    squares += w * residualM * residualM
    count++
  }
  // A target's offset is drawn to zero by what it may be; a platform's is free and costs a degree of freedom.
  const pull = platform || spreadM === 0 ? 0 : 1 / (spreadM * spreadM)
  const offsetM = count === 0 ? 0 : sum / (weight + pull)
  const chiSquare = Math.max(squares - (weight + pull) * offsetM * offsetM, 0)
  const degrees = platform ? count - 1 : count
  return { offsetM, chiSquare, degrees, fits: degrees > 0 && chiSquareTail(chiSquare, degrees) >= CHI_SQUARE_SHARE }
}
