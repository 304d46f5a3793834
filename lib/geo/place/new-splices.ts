import { conductorPoint, pieceOfSpan, spanAt } from '../network/on-section'
import { nameKey } from '../network/labels'
import type { NewSplice, PointToPlace } from '../types'
import { STATE, type Decisions } from './decide'
import type { Gathered } from './gather'
import type { Given } from './given'
import { OpenSplices } from './open-splices'
import { median } from './track-chain'

export interface NewSplices {
  splices: NewSplice[]
  /** New splice of each reading as an index in `splices`, -1: none. */
  of: Int32Array
  /** 1 where another fitting of the same pass stands beside it, told apart by label or picture. */
  beside: Uint8Array
}

/**
 * Gathers readings that found a splice nobody knows into one splice each: same section, conductor and place along the
 * line. Readings of one pass with different labels or pictures stay different splices. Keys depend on content alone.
 */
export function gatherNewSplices(given: Given, gathered: Gathered, decisions: Decisions): NewSplices {
  const { points, chooser } = given
  const found: NewSplices = { splices: [], of: new Int32Array(points.length).fill(-1), beside: new Uint8Array(points.length) }
  const { section, lineDistanceM } = gathered.candidates
  const { best } = decisions
  const sectionOf = (i: number): number => section[best[i]!]!
  const atM = (i: number): number => lineDistanceM[best[i]!]!
  const members = Int32Array.from(points.keys()).filter((i) => decisions.state[i] === STATE.new)
  const conductors = rankConductors(given, decisions, members)
  members.sort((a, b) => sectionOf(a) - sectionOf(b) || conductors[a]! - conductors[b]! || atM(a) - atM(b) || a - b)
  const used = new Map<string, number>()
  const open = new OpenSplices()
  for (let at = 0; at <= members.length; at++) {
    const i = members[at]
    const before = members[at - 1]
    const onward = i !== undefined && before !== undefined && sectionOf(before) === sectionOf(i) && conductors[before] === conductors[i]
    const withinM = i === undefined ? 0 : chooser.reachM(gathered.sigmaM[i]!)
    for (const { members: own } of open.closeBehind(onward ? atM(i) - withinM : Infinity)) {
      const first = own[0]!
      const middleM = own.length === 1 ? atM(first) : median(own.map(atM))
      const splice = newSplice(given, decisions, own, sectionOf(first), middleM)
      nameSplice(splice, conductorKey(points[first]!, decisions.phase[first]), used)
      for (const one of own) found.of[one] = found.splices.length
      found.splices.push(splice)
    }
    if (i !== undefined) open.add(given, i, atM(i), withinM, found.beside)
  }
  return found
}

/** A number for the conductor of each reading, in the order of their names. */
function rankConductors({ points }: Given, decisions: Decisions, members: Int32Array): Int32Array {
  const keyOf = (i: number): string => conductorKey(points[i]!, decisions.phase[i])
  const ranks = new Map([...new Set(Array.from(members, keyOf))].sort().map((key, rank) => [key, rank]))
  const conductors = new Int32Array(points.length)
  for (const i of members) conductors[i] = ranks.get(keyOf(i))!
  return conductors
}

/** Phase where it is known, else the position; with the subconductor. */
function conductorKey({ position, subconductor }: PointToPlace, phase: string | undefined): string {
  return `${phase === undefined ? `at ${nameKey(position ?? '')}` : nameKey(phase)}/${nameKey(subconductor ?? '')}`
}

function newSplice(
  { network, points }: Given, decisions: Decisions, members: readonly number[], section: number, lineDistanceM: number,
): NewSplice {
  const { sectionId, circuitId } = network.sections[section]!
  const spanIndex = spanAt(network, section, lineDistanceM)!
  const span = network.spans[spanIndex]!
  const [lon, lat] = conductorPoint(network, pieceOfSpan(network, spanIndex, lineDistanceM), lineDistanceM)
  const splice: NewSplice = {
    key: '', circuitId, sectionId, spanId: span.spanId, lineDistanceM, offsetFromStructureM: lineDistanceM - span.startM, lon, lat,
    readings: members.length,
  }
  if (span.structureBack !== undefined) splice.structureBack = span.structureBack
  if (span.structureAhead !== undefined) splice.structureAhead = span.structureAhead
  for (const i of members) describe(splice, points[i]!, decisions.phase[i])
  return splice
}

/** The first reading that says something of the splice is believed: readings of one splice agree on its conductor. */
function describe(splice: NewSplice, point: PointToPlace, phase: string | undefined): void {
  if (phase !== undefined) splice.phase ??= phase
  if (point.spliceLabel !== undefined) splice.label ??= point.spliceLabel
  if (point.position !== undefined) splice.position ??= point.position
  if (point.circuitSide !== undefined) splice.circuitSide ??= point.circuitSide
  if (point.subconductor !== undefined) splice.subconductor ??= point.subconductor
}

/** Names a splice by its content, so that the same readings give the same keys; twins on one spot are counted. */
function nameSplice(splice: NewSplice, conductor: string, used: Map<string, number>): void {
  const label = splice.label === undefined ? '' : `/${nameKey(splice.label)}`
  const base = `${splice.sectionId}@${splice.lineDistanceM.toFixed(1)}/${conductor}${label}`
  let twins = used.get(base) ?? 0
  splice.key = twins === 0 ? base : `${base}#${++twins}`
  while (twins > 0 && used.has(splice.key)) splice.key = `${base}#${++twins}`
  used.set(base, Math.max(twins, 1))
  used.set(splice.key, used.get(splice.key) ?? 1)
}
