import type { PlacementCandidate } from '../types'
import type { Network } from './network'
import { conductorPoint, pieceOfSpan, sectionEndM, spanAt } from './on-section'
import { SpanSearch } from './search'
import { snapToSpan } from './snap'

/** A place on a section's conductor. */
export type LinePlace = Omit<PlacementCandidate, 'splices' | 'probability'>

/** The place at a line distance of a section, metres; undefined beyond its ends by more than 1 m, or without spans. */
export function locate(network: Network, sectionId: number, lineDistanceM: number): LinePlace | undefined {
  const section = network.sectionIndexOfId.get(sectionId)
  if (section === undefined || !(lineDistanceM >= -1 && lineDistanceM <= sectionEndM(network, section) + 1)) return undefined
  const span = spanAt(network, section, lineDistanceM)
  if (span === undefined) return undefined
  const piece = pieceOfSpan(network, span, lineDistanceM)
  const [lon, lat] = conductorPoint(network, piece, lineDistanceM)
  return placeOn(network, piece, lineDistanceM, lon, lat, 0)
}

export interface SnapOptions {
  /** Only this circuit. */
  circuitId?: number
  /** Metres; 120 unless told. */
  radiusM?: number
}

/** Where a dropped pin may belong: the nearest place on every section within a radius, nearest first, each snapped as readings are. */
export function snapPosition(network: Network, lon: number, lat: number, { circuitId, radiusM = 120 }: SnapOptions = {}): LinePlace[] {
  const search = new SpanSearch(network)
  const places: LinePlace[] = []
  for (let slot = 0, count = search.search(lon, lat, radiusM); slot < count; slot++) {
    if (circuitId !== undefined && network.sections[search.section[slot]!]!.circuitId !== circuitId) continue
    const nearPiece = search.piece[slot]!
    const foot = snapToSpan(network, network.pieces.span[nearPiece]!, lon, lat, nearPiece)
    places.push(placeOn(network, foot.piece, foot.lineDistanceM, foot.lon, foot.lat, foot.offsetM))
  }
  return places
}

/** A place in the words of the network: circuit, section, span and structures. */
export function placeOn(network: Network, piece: number, lineDistanceM: number, lon: number, lat: number, offsetM: number): LinePlace {
  const { circuitId, circuit, sectionId, section } = network.sections[network.pieces.section[piece]!]!
  const { spanId, startM, structureBack, structureAhead } = network.spans[network.pieces.span[piece]!]!
  const offsetFromStructureM = lineDistanceM - startM
  const place: LinePlace = { circuitId, circuit, sectionId, section, spanId, lineDistanceM, offsetFromStructureM, lon, lat, offsetM }
  if (structureBack !== undefined) place.structureBack = structureBack
  if (structureAhead !== undefined) place.structureAhead = structureAhead
  return place
}
