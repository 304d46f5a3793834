import type { PlacementReason } from '../types'
import { fault } from './declaration'
import { positionState, searchRadiusM, type Gathered } from './gather'
import type { Given } from './given'
import { sharedWithoutOffset } from './shared-structures'
import { hasDeclared } from './weigh'

export const STATE = { review: 0, known: 1, new: 2 } as const

/** What was decided of every reading, in columns. */
export interface Decisions {
  state: Uint8Array
  /** Best candidate, -1: none. */
  best: Int32Array
  /** Row of the splice table, -1: none. */
  row: Int32Array
  /** Phase after the phasing table, where it is not the reading's own. */
  phase: (string | undefined)[]
  reasons: (readonly PlacementReason[] | undefined)[]
  /** 1: the reading names its splice itself. */
  named: Uint8Array
}

export function decideAll(given: Given, gathered: Gathered): Decisions {
  const count = given.points.length
  const decisions: Decisions = {
    state: new Uint8Array(count), best: new Int32Array(count).fill(-1), row: new Int32Array(count).fill(-1),
    phase: new Array<string | undefined>(count),
    reasons: new Array<readonly PlacementReason[] | undefined>(count), named: new Uint8Array(count),
  }
  for (let i = 0; i < count; i++) {
    const best = bestOf(gathered, i)
    decisions.best[i] = best
    const reasons = unplaceable(given, gathered, i, best)
    if (reasons) decisions.reasons[i] = reasons
    else chooseSplice(given, gathered, decisions, i)
  }
  return decisions
}

function bestOf({ candidates }: Gathered, reading: number): number {
  let best = -1
  for (let c = candidates.start[reading]!; c < candidates.start[reading + 1]!; c++) {
    if (best < 0 || candidates.probability[c]! > candidates.probability[best]!) best = c
  }
  return best
}

/** Why a person has to say on which circuit a reading lies; undefined: it is clear. */
function unplaceable({ network, points, options }: Given, gathered: Gathered, i: number, best: number): PlacementReason[] | undefined {
  const { candidates } = gathered
  const point = points[i]!
  const position = positionState(point)
  const missing = position === 'zero' ? [fault('position-zero', {})] : position === 'missing' ? [fault('no-position', {})] : []
  if (gathered.fault[i]) return [gathered.fault[i], ...missing]
  if (best < 0) return missing.length > 0 ? missing : [fault('nothing-in-reach', { reachM: searchRadiusM(point, options) })]
  const probability = candidates.probability[best]!
  const shared = missing.length > 0 ? undefined : sharedWithoutOffset(network, candidates, i, best)
  if (shared !== undefined) {
    return [fault('shared-structures-no-offset', {
      circuit: network.sections[candidates.section[best]!]!.circuit, other: network.sections[candidates.section[shared]!]!.circuit,
    })]
  }
  if (probability >= options.minProbability) return undefined
  if (missing.length > 0) return missing
  const rival = hasDeclared(gathered, i) ? declaredRival(gathered, i) : undefined
  if (rival === undefined) {
    return [fault('low-probability', { probability, offsetM: Math.abs(candidates.offsetM[best]!), sigmaM: gathered.sigmaM[i]! })]
  }
  const value = point.circuit ?? point.spliceLabel ?? point.structureBack ?? point.structureAhead ?? point.circuitSide ?? ''
  const other = network.sections[candidates.section[rival]!]!.circuit
  return [fault('declared-contradicts-position', { field: 'circuit', value, other, probability })]
}

/** The candidate that the reading does not declare and that keeps the declared one from being believed. */
function declaredRival({ candidates }: Gathered, reading: number): number | undefined {
  let rival: number | undefined
  let declared = 0
  for (let c = candidates.start[reading]!; c < candidates.start[reading + 1]!; c++) {
    if (candidates.declared[c] === 1) declared += candidates.probability[c]!
    else if (rival === undefined || candidates.probability[c]! > candidates.probability[rival]!) rival = c
  }
  return rival !== undefined && candidates.probability[rival]! > 1 - declared - candidates.probability[rival]! ? rival : undefined
}

function chooseSplice({ points, chooser }: Given, gathered: Gathered, decisions: Decisions, i: number): void {
  const point = points[i]!
  const best = decisions.best[i]!
  const section = gathered.candidates.section[best]!
  const lineDistanceM = gathered.candidates.lineDistanceM[best]!
  const { conductor, reasons } = chooser.conductorOf(point, section, lineDistanceM)
  decisions.phase[i] = conductor.phase
  if (reasons[0]?.code === 'declared-contradicts-position') {
    decisions.reasons[i] = reasons
    return
  }
  const named = gathered.declaration[i]?.places.find((place) => place.section === section && place.spliceRow !== undefined)
  if (named?.spliceRow !== undefined && gathered.candidates.declared[best] === 1) {
    decisions.state[i] = STATE.known
    decisions.row[i] = named.spliceRow
    decisions.named[i] = 1
    return
  }
  const halfSpanM = gathered.halfSpanM[i]!
  const choice = chooser.choose(conductor, section, lineDistanceM, halfSpanM > 0 ? halfSpanM : chooser.reachM(gathered.sigmaM[i]!))
  const nowhere = choice.state === 'new' && halfSpanM > 0
  decisions.state[i] = choice.state === 'review' || nowhere ? STATE.review : STATE[choice.state]
  decisions.row[i] = choice.row ?? -1
  decisions.reasons[i] = nowhere ? [fault('no-position', {})] : reasons.length > 0 ? [...reasons, ...choice.reasons] : choice.reasons
}
