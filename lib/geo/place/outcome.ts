import { conductorPoint, pieceOfSpan, spanAt } from '../network/on-section'
import { placeOn } from '../network/locate'
import { snapToSpan } from '../network/snap'
import type { PlacementCandidate, PlacementMethod, PlacementOutcome, PlacementReason, PointToPlace } from '../types'
import { circuitByTrack } from './circuit-by-track'
import { fault } from './declaration'
import { STATE, type Decisions } from './decide'
import { positionState, type Gathered } from './gather'
import type { Given } from './given'
import { BY, type Matched } from './match-all'
import type { NewSplices } from './new-splices'

/** Most splices listed with a candidate. */
const MOST_SPLICES = 5

/** Everything that was found out about the readings, from which outcomes are written one at a time. */
export interface Placed {
  given: Given
  gathered: Gathered
  matched: Matched
  decisions: Decisions
  newSplices: NewSplices
}

export function outcomeOf(placed: Placed, i: number): PlacementOutcome {
  const { given: { points, splices, options }, gathered: { candidates }, decisions, newSplices } = placed
  const point = points[i]!
  const best = decisions.best[i]!
  const state = decisions.state[i] === STATE.review ? 'review' : 'placed'
  const ranked: number[] = []
  for (let c = candidates.start[i]!; c < candidates.start[i + 1]!; c++) ranked.push(c)
  ranked.sort((a, b) => candidates.probability[b]! - candidates.probability[a]! || a - b)
  const written = ranked.slice(0, options.maxCandidates).map((c) => candidateOf(placed, i, c, c === best))
  const outcome: PlacementOutcome = {
    index: point.index, state, method: methodOf(placed, i), reasons: reasonsOf(placed, i), candidates: written,
  }
  if (best >= 0) outcome.probability = candidates.probability[best]!
  if (decisions.phase[i] !== undefined) outcome.phase = decisions.phase[i]
  if (state === 'review' || !written[0]) return outcome
  outcome.chosen = written[0]
  if (decisions.state[i] === STATE.known) outcome.spliceId = splices.spliceId[decisions.row[i]!]!
  else outcome.newSpliceKey = newSplices.splices[newSplices.of[i]!]!.key
  return outcome
}

function methodOf({ gathered, matched, decisions }: Placed, i: number): PlacementMethod {
  const best = decisions.best[i]!
  if (best >= 0 && gathered.candidates.declared[best] === 1) return 'declared'
  return matched.by[i] === BY.track ? 'track' : 'alone'
}

function reasonsOf(placed: Placed, i: number): PlacementReason[] {
  const { given, gathered, matched, decisions, newSplices } = placed
  const point = given.points[i]!
  const deciding = decisions.reasons[i] ?? []
  // Where something contradicts, saying what was declared would only repeat it.
  if (gathered.fault[i]) return [...deciding]
  const reasons: PlacementReason[] = []
  const best = decisions.best[i]!
  if (best >= 0 && gathered.candidates.declared[best] === 1) {
    if (point.spliceLabel !== undefined && decisions.named[i] === 1) reasons.push(fault('declared-splice', { splice: point.spliceLabel }))
    else if (point.structureBack !== undefined || point.structureAhead !== undefined) {
      reasons.push(fault('declared-structures', { back: point.structureBack ?? '', ahead: point.structureAhead ?? '' }))
    } else reasons.push(fault('declared-circuit', { circuit: point.circuit ?? point.section ?? point.circuitSide ?? '' }))
  }
  reasons.push(...sequenceReasons(matched, gathered, point, i))
  if (decisions.state[i] !== STATE.review && methodOf(placed, i) === 'track') {
    const doubt = circuitByTrack(given, gathered, matched.sigmaScale[i]!, i, best)
    if (doubt) reasons.push(doubt)
  }
  if (decisions.state[i] === STATE.review) return [...deciding, ...reasons]
  if (positionState(point) === 'zero') reasons.push(fault('position-zero', {}))
  reasons.push(...deciding)
  if (newSplices.beside[i] === 1) reasons.push(fault('same-pass-different-label', {}))
  return reasons
}

function sequenceReasons(matched: Matched, gathered: Gathered, point: PointToPlace, i: number): PlacementReason[] {
  const track = matched.tracks[matched.trackOf[i]!]
  switch (matched.by[i]) {
    case BY.track:
      return [fault('track-matched', { count: track!.count, ...point.crew !== undefined && { crew: point.crew } }),
        ...point.positionOf === 'platform' ? [fault('track-offset', { offsetM: track!.estimatedOffsetM! })] : []]
    case BY.residuals:
      return [fault('track-residuals', { count: track!.count })]
    case BY.shortTrack:
      return gathered.hasPosition[i] === 1 ? [fault('track-broken', {})] : []
    case BY.inTurn:
      return [fault('circuits-in-turn', {})]
    default:
      return []
  }
}

function candidateOf(placed: Placed, i: number, c: number, best: boolean): PlacementCandidate {
  const { given: { network, points }, gathered: { candidates, hasPosition } } = placed
  const probability = candidates.probability[c]!
  const piece = candidates.piece[c]!
  if (best && piece >= 0 && hasPosition[i] === 1) {
    const foot = snapToSpan(network, network.pieces.span[piece]!, points[i]!.lon!, points[i]!.lat!, piece)
    const splices = splicesNear(placed, i, candidates.section[c]!, foot.lineDistanceM)
    return Object.assign(placeOn(network, foot.piece, foot.lineDistanceM, foot.lon, foot.lat, foot.offsetM), { probability, splices })
  }
  const lineDistanceM = candidates.lineDistanceM[c]!
  const at = piece >= 0 ? piece : pieceOfSpan(network, spanAt(network, candidates.section[c]!, lineDistanceM)!, lineDistanceM)
  const [lon, lat] = conductorPoint(network, at, lineDistanceM)
  const splices = splicesNear(placed, i, candidates.section[c]!, lineDistanceM)
  return Object.assign(placeOn(network, at, lineDistanceM, lon, lat, candidates.offsetM[c]!), { probability, splices })
}

function splicesNear({ given, gathered, decisions }: Placed, i: number, section: number, lineDistanceM: number) {
  const { points, splices, chooser } = given
  const { position, subconductor } = points[i]!
  const phase = decisions.phase[i] ?? points[i]!.phase
  const conductor = { phase, position, subconductor, label: undefined }
  const withinM = gathered.halfSpanM[i]! || chooser.reachM(gathered.sigmaM[i]!)
  return chooser.inReach(conductor, section, lineDistanceM, withinM).slice(0, MOST_SPLICES).map(({ row }) => {
    const alongM = splices.lineDistanceM[row]! - lineDistanceM
    const near: PlacementCandidate['splices'][number] = { spliceId: splices.spliceId[row]!, alongM }
    const label = splices.label[row]
    const known = splices.names.text(splices.phase[row]!)
    if (label !== undefined) near.label = label
    if (known !== undefined) near.phase = known
    return near
  })
}
