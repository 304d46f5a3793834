import { shortDistanceM } from '../earth/geodesic'
import type { Network } from '../network/network'
import type { PointToPlace } from '../types'
import type { CandidateList } from './candidate-list'
import type { Chain, Scratch } from './hmm'
import type { Stream } from './tracks'

/** Crews follow bends, taps and stations: even a way that fits badly is this likely against one that fits. */
const LEAST_FIT = 1e-3
/** Share of steps at which a crew passes to another section of the same circuit. */
const SECTION_SHARE = 0.02
const LEAST_BETA_M = 1

/** One track as a chain, with what its transitions are made of; grows to the longest track and is used again. */
export class TrackChain implements Chain {
  steps = 0
  moves = 0
  start = new Int32Array(1)
  moveStart = new Int32Array(1)
  emission = new Float64Array(0)
  move = new Float64Array(0)
  /** 1 where a move changes the circuit. */
  changes = new Uint8Array(0)
  /** How well the way along the line fits the way between the positions, of each move. */
  private fit = new Float64Array(0)
  /** Index in the candidate list of each state; -1: the reading strayed from a line that its neighbours are on. */
  candidate = new Int32Array(0)
  private section = new Int32Array(0)
  readonly scratch: Scratch = {
    forward: new Float64Array(0), backward: new Float64Array(0), posterior: new Float64Array(0), scale: new Float64Array(0),
  }

  constructor(
    private readonly network: Network, private readonly points: readonly PointToPlace[], private readonly candidates: CandidateList,
  ) {}

  /** Lays out states and transitions; emissions and shares of change are set after. */
  lay(readings: Int32Array, from: number, to: number, betaM: number): void {
    const { start: listStart } = this.candidates
    this.reserve(readings, from, to)
    this.steps = to - from
    let state = 0
    let move = 0
    for (let t = 0; t < this.steps; t++) {
      const reading = readings[from + t]!
      this.start[t] = state
      this.moveStart[t] = move
      for (let c = listStart[reading]!; c < listStart[reading + 1]!; c++) {
        this.candidate[state] = c
        this.section[state++] = this.candidates.section[c]!
      }
      if (t > 0 && t + 1 < this.steps) state = this.layStrays(readings[from + t - 1]!, reading, readings[from + t + 1]!, state)
      this.start[t + 1] = state
      if (t > 0) move = this.layMoves(readings[from + t - 1]!, reading, t, betaM)
    }
    this.moves = move
  }

  /** One bad position must not press its crew off a line and back: the lines of both neighbours stay open at it. */
  private layStrays(before: number, reading: number, after: number, state: number): number {
    const { start, section } = this.candidates
    for (let c = start[before]!; c < start[before + 1]!; c++) {
      if (!this.on(section[c]!, after) || this.on(section[c]!, reading)) continue
      this.candidate[state] = -1
      this.section[state++] = section[c]!
    }
    return state
  }

  private on(section: number, reading: number): boolean {
    const { start, section: sections } = this.candidates
    for (let c = start[reading]!; c < start[reading + 1]!; c++) if (sections[c] === section) return true
    return false
  }

  private layMoves(before: number, reading: number, t: number, betaM: number): number {
    const { lineDistanceM } = this.candidates
    const a = this.points[before]!
    const b = this.points[reading]!
    const betweenM = shortDistanceM(a.lon!, a.lat!, b.lon!, b.lat!)
    const first = this.moveStart[t]!
    let move = first
    let best = LEAST_FIT
    for (let from = this.start[t - 1]!; from < this.start[t]!; from++) {
      for (let to = this.start[t]!; to < this.start[t + 1]!; to++, move++) {
        const back = this.candidate[from]!
        const ahead = this.candidate[to]!
        const same = this.section[from] === this.section[to]
        this.changes[move] = this.circuit(from) === this.circuit(to) ? 0 : 1
        this.fit[move] = -(same || this.changes[move] === 1 ? 1 : SECTION_SHARE)
        if (!same || back < 0 || ahead < 0) continue
        const alongM = Math.abs(lineDistanceM[ahead]! - lineDistanceM[back]!)
        this.fit[move] = Math.max(Math.exp(-Math.abs(betweenM - alongM) / betaM), LEAST_FIT)
        if (this.fit[move]! > best) best = this.fit[move]!
      }
    }
    // Where nothing is known of the way it fits as the best of the others does.
    for (let at = first; at < move; at++) if (this.fit[at]! < 0) this.fit[at] = -best * this.fit[at]!
    return move
  }

  private circuit(state: number): number {
    return this.network.sections[this.section[state]!]!.circuitId
  }

  /** Sets the share of steps at which the circuit changes. */
  setSwitchShare(share: number): void {
    for (let at = 0; at < this.moves; at++) this.move[at] = this.fit[at]! * (this.changes[at] === 1 ? share : 1 - share)
  }

  size(t: number): number {
    return this.start[t + 1]! - this.start[t]!
  }

  private reserve(readings: Int32Array, from: number, to: number): void {
    const { start } = this.candidates
    let states = 0
    let moves = 0
    let before = 0
    for (let at = from; at < to; at++) {
      // Strays add at most the candidates of the reading before.
      const own = start[readings[at]! + 1]! - start[readings[at]!]!
      const size = own + (at > from ? start[readings[at - 1]! + 1]! - start[readings[at - 1]!]! : 0)
      states += size
      moves += size * before
      before = size
    }
    if (this.start.length <= to - from) {
      this.start = new Int32Array(2 * (to - from) + 1)
      this.moveStart = new Int32Array(2 * (to - from) + 1)
      this.scratch.scale = new Float64Array(2 * (to - from) + 1)
    }
    if (this.candidate.length < states) {
      this.candidate = new Int32Array(2 * states)
      this.section = new Int32Array(2 * states)
      this.emission = new Float64Array(2 * states)
      this.scratch.forward = new Float64Array(2 * states)
      this.scratch.backward = new Float64Array(2 * states)
      this.scratch.posterior = new Float64Array(2 * states)
    }
    if (this.move.length < moves) {
      this.move = new Float64Array(2 * moves)
      this.fit = new Float64Array(2 * moves)
      this.changes = new Uint8Array(2 * moves)
    }
  }
}

/**
 * Scale of the difference between the way along the line and the way between the positions, metres: median over
 * neighbours whose nearest candidates lie on one section, by ln 2 (Newson and Krumm 2009). It depends on the sampling, so it is
 * estimated for every stream.
 */
export function estimateBetaM(points: readonly PointToPlace[], candidates: CandidateList, { readings, trackStart }: Stream): number {
  const differences: number[] = []
  for (let track = 0; track + 1 < trackStart.length; track++) {
    for (let at = trackStart[track]! + 1; at < trackStart[track + 1]!; at++) {
      const a = readings[at - 1]!
      const b = readings[at]!
      const [ca, cb] = [candidates.start[a]!, candidates.start[b]!]
      if (candidates.section[ca] !== candidates.section[cb]) continue
      const alongM = Math.abs(candidates.lineDistanceM[ca]! - candidates.lineDistanceM[cb]!)
      differences.push(Math.abs(shortDistanceM(points[a]!.lon!, points[a]!.lat!, points[b]!.lon!, points[b]!.lat!) - alongM))
    }
  }
  return Math.max(median(differences) / Math.LN2, LEAST_BETA_M)
}

/** 0 of nothing. */
export function median(values: number[] | Float64Array): number {
  if (values.length === 0) return 0
  const sorted = Float64Array.from(values).sort()
  const middle = sorted.length >> 1
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2
}

