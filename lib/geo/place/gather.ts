import { distanceToPlace } from '../network/on-section'
import { SpanSearch } from '../network/search'
import type { PlacementReason, PlacingOptions, PointToPlace } from '../types'
import { CandidateList } from './candidate-list'
import { fault, MOST_OFFERED, type Declaration, type DeclaredPlace } from './declaration'
import type { DeclarationReader } from './declared'
import type { Given } from './given'

/** To say how far off a declared line is, look this far. */
const LOOK_M = 2_000

/** No receiver is better to a line's drawing, and none so bad says anything of a place. */
const LEAST_SIGMA_M = 0.3
const MOST_SIGMA_M = 150

/** What is known of every reading after candidates are found. */
export interface Gathered {
  candidates: CandidateList
  hasPosition: Uint8Array
  sigmaM: Float64Array
  /** Half the stretch in which the reading lies, where it has no position and only its span is known. */
  halfSpanM: Float64Array
  declaration: (Declaration | undefined)[]
  fault: (PlacementReason | undefined)[]
}

/** What a reading's position is good to, metres; no figure is as bad as the worst. */
const sigmaOfM = ({ sigmaM }: PointToPlace): number =>
  Number.isNaN(sigmaM) ? MOST_SIGMA_M : Math.min(Math.max(sigmaM, LEAST_SIGMA_M), MOST_SIGMA_M)

/** Accuracy beyond which two statements of a place contradict each other: the larger of three sigma and the search radius. */
export const reachM = (point: PointToPlace, options: PlacingOptions): number => Math.max(3 * sigmaOfM(point), options.searchM)

export const searchRadiusM = (point: PointToPlace, options: PlacingOptions): number =>
  Math.max(reachM(point, options), point.positionOf === 'platform' ? options.platformSearchM : 0)

/** The usual marks of a missing position: no number, or a receiver without a fix at (0, 0). */
export function positionState({ lon, lat }: PointToPlace): 'given' | 'zero' | 'missing' {
  if (lon === undefined || lat === undefined || !(Math.abs(lon) <= 180) || !(Math.abs(lat) <= 90)) return 'missing'
  return lon === 0 && lat === 0 ? 'zero' : 'given'
}

export function gatherCandidates(given: Given, reader: DeclarationReader): Gathered {
  const { points } = given
  const gathered: Gathered = {
    candidates: new CandidateList(points.length),
    hasPosition: new Uint8Array(points.length),
    sigmaM: new Float64Array(points.length),
    halfSpanM: new Float64Array(points.length),
    declaration: new Array<Declaration | undefined>(points.length),
    fault: new Array<PlacementReason | undefined>(points.length),
  }
  const search = new SpanSearch(given.network)
  points.forEach((point, i) => {
    const positioned = positionState(point) === 'given'
    const count = positioned ? search.search(point.lon!, point.lat!, searchRadiusM(point, given.options)) : 0
    const declaration = reader.read(point, positioned, count > 0 ? search.section.subarray(0, count) : undefined)
    gathered.declaration[i] = declaration
    gathered.fault[i] = declaration?.fault
    gathered.sigmaM[i] = sigmaOfM(point)
    gathered.hasPosition[i] = positioned ? 1 : 0
    if (positioned) fromPosition(given, search, gathered, i)
    else fromDeclaration(declaration, gathered, i)
    gathered.candidates.close()
  })
  return gathered
}

/** Without a position only the declared places count; a whole section is no place. */
function fromDeclaration(declaration: Declaration | undefined, { candidates, halfSpanM }: Gathered, i: number): void {
  if (!declaration || declaration.by === 'circuit') return
  for (const { section, fromM, toM } of declaration.places) {
    candidates.add(section, -1, (fromM + toM) / 2, 0, true)
    halfSpanM[i] = Math.max(halfSpanM[i]!, (toM - fromM) / 2)
  }
}

/** From the finds of the search that was just made. */
function fromPosition(given: Given, search: SpanSearch, gathered: Gathered, i: number): void {
  const { network, points, options } = given
  const { candidates } = gathered
  const point = points[i]!
  const declaration = gathered.declaration[i]
  const places = declaration?.places ?? []
  let declared = false
  for (let slot = 0; slot < search.count; slot++) {
    const section = search.section[slot]!
    const lineDistanceM = search.lineDistanceM[slot]!
    const place = places.length === 0 ? undefined : nearestPlace(places, section, lineDistanceM)
    if (place && awayM(place, lineDistanceM) <= reachM(point, options)) {
      const atM = Math.min(Math.max(lineDistanceM, place.fromM), place.toM)
      candidates.add(section, atM === lineDistanceM ? search.piece[slot]! : -1, atM, search.offsetM[slot]!, true)
      declared = true
    } else {
      const onSide = declaration?.by === 'side' && Math.sign(network.sections[section]!.lateralOffsetM ?? 0) === declaration.side
      candidates.add(section, search.piece[slot]!, lineDistanceM, search.offsetM[slot]!, onSide)
    }
  }
  if (places.length > 0 && !declared) contradict(given, search, gathered, i)
}

const awayM = (place: DeclaredPlace, lineDistanceM: number): number => Math.max(place.fromM - lineDistanceM, lineDistanceM - place.toM, 0)

function nearestPlace(places: readonly DeclaredPlace[], section: number, lineDistanceM: number): DeclaredPlace | undefined {
  let nearest: DeclaredPlace | undefined
  for (const place of places) {
    if (place.section !== section) continue
    if (!nearest || awayM(place, lineDistanceM) < awayM(nearest, lineDistanceM)) nearest = place
  }
  return nearest
}

/** The position lies off every place that the reading names: say how far, and offer both. */
function contradict({ network, points }: Given, search: SpanSearch, { candidates, declaration, fault: faults }: Gathered, i: number): void {
  const { by, places } = declaration[i]!
  const point = points[i]!
  let nearestM = Infinity
  if (by === 'circuit') {
    search.search(point.lon!, point.lat!, LOOK_M)
    for (let slot = search.count - 1; slot >= 0; slot--) {
      if (!places.some((place) => place.section === search.section[slot])) continue
      nearestM = search.distanceM[slot]!
      candidates.add(search.section[slot]!, search.piece[slot]!, search.lineDistanceM[slot]!, search.offsetM[slot]!, true)
    }
  } else {
    for (const { section, fromM, toM } of places.slice(0, MOST_OFFERED)) {
      const distanceM = Math.min(...[fromM, toM].map((atM) => distanceToPlace(network, section, atM, point.lon!, point.lat!)))
      nearestM = Math.min(nearestM, distanceM)
      candidates.add(section, -1, (fromM + toM) / 2, distanceM, true)
    }
  }
  faults[i] ??= fault('declared-contradicts-position', {
    ...declaredWords(point, by), ...(Number.isFinite(nearestM) && { distanceM: Math.round(nearestM * 10) / 10 }),
  })
}

function declaredWords(point: PointToPlace, by: Declaration['by']): { field: string; value: string } {
  if (by === 'splice') return { field: 'splice_id', value: point.spliceLabel ?? '' }
  if (by === 'structures') return { field: 'structure_back', value: point.structureBack ?? point.structureAhead ?? '' }
  return { field: 'circuit', value: point.circuit ?? point.section ?? '' }
}
