import { shortDistanceM } from '../earth/geodesic'
import { pieceAt, pointAtLineDistance } from '../line/polyline'
import { nameKey } from '../network/labels'
import { buildNetwork, type Network } from '../network/network'
import { SpanSearch } from '../network/search'
import type { GeoIssue } from '../types'
import { dropRepeats } from './drop-repeats'
import { error, MAIN_SECTION, metresWords, sectionName, sectionWords, warning } from './line-feature'

/** What attaching needs of a section; an assembled one fits, and so does a stored one. */
export interface SectionLine {
  circuit: string
  section: string
  lonLat: Float64Array
  distancesM: Float64Array
}

/** What attaching needs of a structure; intake's structure record fits as it is. */
export interface StructurePoint {
  rowNo: number
  /** Null: found by its position alone, on every section that passes it. */
  circuit: string | null
  section: string | null
  structure: string
  lon: number | null
  lat: number | null
  /** As the utility counts it. */
  lineDistanceM: number | null
}

export interface AttachedStructure<S extends StructurePoint = StructurePoint> {
  structure: S
  /** Index in the sections that were given. */
  section: number
  /** WGS84, from the named end. */
  lineDistanceM: number
  declaredLineDistanceM?: number
  /** Distance of the given position from the centreline, metres. */
  besideM: number
  at: 'vertex' | 'line' | 'declared'
  /** Of the structure: the given position, else the one on the centreline. */
  lon: number
  lat: number
}

/** A structure this far beside its line is taken with a warning up to the second figure, and not beyond. */
const BESIDE_M = 25
const MOST_BESIDE_M = 50
const VERTEX_M = 2
const LOOK_M = 2_000

/**
 * Puts structures on sections: on the vertex they stand at, else on the nearest point of the line. A structure without a
 * circuit goes on every section that passes it as closely as the nearest one does, so one may serve several circuits.
 * A structure without a position goes to its declared line distance. What finds no place is an error on its row.
 */
export function attachStructures<S extends StructurePoint>(
  sections: readonly SectionLine[], structures: readonly S[],
): { attached: AttachedStructure<S>[]; issues: GeoIssue[] } {
  const issues: GeoIssue[] = []
  const network = wholeSections(sections)
  const search = new SpanSearch(network)
  const attached = structures.flatMap((structure) => {
    const wanted = wantedSections(network, structure)
    if (wanted !== undefined && wanted.length === 0) {
      issues.push(unknownLine(structure))
      return []
    }
    return structure.lon === null || structure.lat === null
      ? byDistance(sections, structure, wanted, issues)
      : byPosition(sections, search, structure, structure.lon, structure.lat, wanted, issues)
  })
  return { attached: dropRepeats(sections, attached, issues), issues: issues.sort((a, b) => a.row - b.row) }
}

function wholeSections(sections: readonly SectionLine[]): Network {
  return buildNetwork({
    sections: sections.map(({ circuit, section, lonLat, distancesM }, sectionId) =>
      ({ sectionId, circuitId: sectionId, circuit, section, lengthM: distancesM.at(-1) ?? 0, lonLat })),
    spans: sections.map(({ lonLat, distancesM }, sectionId) =>
      ({ spanId: sectionId, sectionId, circuitId: sectionId, startM: 0, endM: distancesM.at(-1) ?? 0, lonLat })),
  })
}

/** Undefined: any section will do. */
function wantedSections(network: Network, { circuit, section }: StructurePoint): readonly number[] | undefined {
  if (circuit === null) return undefined
  const own = network.circuits.get(nameKey(circuit)) ?? []
  return section === null ? own : own.filter((index) => nameKey(network.sections[index]!.section) === nameKey(sectionName(section)))
}

function unknownLine({ rowNo, circuit, section, structure }: StructurePoint): GeoIssue {
  const line = sectionWords(circuit ?? '', section ?? MAIN_SECTION)
  return error(rowNo, 'unknown-circuit', `Structure ${structure} names ${line}, which is not known.`,
    'Import the line first, or correct the name.', { field: section === null ? 'circuit' : 'section', value: section ?? circuit ?? '' })
}

function byDistance<S extends StructurePoint>(
  sections: readonly SectionLine[], structure: S, wanted: readonly number[] | undefined, issues: GeoIssue[],
): AttachedStructure<S>[] {
  const { rowNo, lineDistanceM } = structure
  const [section] = wanted ?? []
  const line = section === undefined ? undefined : sections[section]
  if (lineDistanceM === null || section === undefined || !line || wanted?.length !== 1) {
    issues.push(error(rowNo, 'structure-without-place',
      `Structure ${structure.structure} has neither a position nor a line distance on one named section.`,
      'Give lon and lat, or circuit, section and line_distance_m.'))
    return []
  }
  const lengthM = line.distancesM.at(-1) ?? 0
  if (lineDistanceM < 0 || lineDistanceM > lengthM * 1.01 + BESIDE_M) {
    issues.push(error(rowNo, 'beyond-the-line',
      `Structure ${structure.structure} is declared at ${metresWords(lineDistanceM)}; the section is ${metresWords(lengthM)} long.`,
      'Correct line_distance_m, or give lon and lat.', { field: 'line_distance_m', value: String(lineDistanceM) }))
    return []
  }
  const atM = Math.min(lineDistanceM, lengthM)
  const [lon, lat] = pointAtLineDistance(line.lonLat, atM, line.distancesM)
  return [{ structure, section, lineDistanceM: atM, declaredLineDistanceM: lineDistanceM, besideM: 0, at: 'declared', lon, lat }]
}

function byPosition<S extends StructurePoint>(
  sections: readonly SectionLine[], search: SpanSearch, structure: S, lon: number, lat: number,
  wanted: readonly number[] | undefined, issues: GeoIssue[],
): AttachedStructure<S>[] {
  const count = search.search(lon, lat, MOST_BESIDE_M)
  const finds = Array.from({ length: count }, (_, slot) => slot).filter((slot) => !wanted || wanted.includes(search.section[slot]!))
  const [nearest] = finds
  const mostM = wanted ? MOST_BESIDE_M : BESIDE_M
  if (nearest === undefined || search.distanceM[nearest]! > mostM) {
    issues.push(offLine(search, structure, lon, lat, wanted))
    return []
  }
  const nearestM = search.distanceM[nearest]!
  if (nearestM > BESIDE_M) {
    issues.push(warning(structure.rowNo, 'structure-beside-line',
      `Structure ${structure.structure} lies ${metresWords(nearestM)} beside its line.`,
      'Check its position; the nearest point of the line is used.', { field: 'lon' }))
  }
  const declared = structure.lineDistanceM === null ? {} : { declaredLineDistanceM: structure.lineDistanceM }
  return finds.filter((slot) => search.distanceM[slot]! <= nearestM + VERTEX_M).map((slot) => {
    const section = search.section[slot]!
    const lineDistanceM = search.lineDistanceM[slot]!
    const vertexM = vertexNear(sections[section]!, lineDistanceM, lon, lat)
    const at = vertexM === undefined ? 'line' : 'vertex'
    return { structure, section, lineDistanceM: vertexM ?? lineDistanceM, ...declared, besideM: search.distanceM[slot]!, at, lon, lat }
  })
}

function vertexNear({ lonLat, distancesM }: SectionLine, lineDistanceM: number, lon: number, lat: number): number | undefined {
  const piece = pieceAt(distancesM, lineDistanceM)
  for (const vertex of [piece, piece + 1]) {
    if (shortDistanceM(lonLat[2 * vertex]!, lonLat[2 * vertex + 1]!, lon, lat) <= VERTEX_M) return distancesM[vertex]!
  }
  return undefined
}

function offLine(search: SpanSearch, structure: StructurePoint, lon: number, lat: number, wanted: readonly number[] | undefined): GeoIssue {
  const count = search.search(lon, lat, LOOK_M)
  const slot = Array.from({ length: count }, (_, i) => i).find((i) => !wanted || wanted.includes(search.section[i]!))
  const line = wanted ? `its line ${structure.circuit}` : 'the nearest line'
  const far = slot === undefined ? `more than ${metresWords(LOOK_M)}` : metresWords(search.distanceM[slot]!)
  return error(structure.rowNo, 'structure-off-line', `Structure ${structure.structure} lies ${far} from ${line}.`,
    'Check lon and lat, or import the line that it stands on.', { field: 'lon', value: `${lon}, ${lat}` })
}
