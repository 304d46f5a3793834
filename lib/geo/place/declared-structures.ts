import { structureKey } from '../network/labels'
import type { Network, StructurePlace } from '../network/network'
import { spanAt } from '../network/on-section'
import type { PlacementReason, PointToPlace } from '../types'
import { fault, MOST_PLACES, type DeclaredPlace, type SectionSet } from './declaration'

/** Declared offsets are paced or read off: this much past the span's end is still its end. */
const OFFSET_SLACK_M = 30

/**
 * The stretches that structures, offset and span fraction name, on the sections that the circuit leaves open
 * (undefined: on all). With an offset ahead of structure_back or a span fraction it is one point.
 */
export function structurePlaces(
  network: Network, point: PointToPlace, sections: SectionSet | undefined,
): DeclaredPlace[] | PlacementReason {
  const back = point.structureBack === undefined ? undefined : known(network, point.structureBack, sections)
  const ahead = point.structureAhead === undefined ? undefined : known(network, point.structureAhead, sections)
  if (back?.length === 0) return unknown('structure_back', point.structureBack!, point.circuit)
  if (ahead?.length === 0) return unknown('structure_ahead', point.structureAhead!, point.circuit)
  const places = namedSpans(network, back, ahead)
  if (places.length === 0) {
    return fault('declared-unknown', { field: 'structure_ahead', value: point.structureAhead ?? '', back: point.structureBack ?? '' })
  }
  const exact = places.map((place) => fixed(place, point, back !== undefined)).filter((place) => place !== undefined)
  if (exact.length > 0) return exact
  return fault('declared-contradicts-position', { field: 'offset_from_structure_m', value: point.offsetFromStructureM ?? 0 })
}

function known(network: Network, label: string, sections: SectionSet | undefined): readonly StructurePlace[] {
  const places = network.structures.get(structureKey(label)) ?? []
  return sections ? places.filter((place) => sections.includes(place.section)) : places.slice(0, MOST_PLACES)
}

const unknown = (field: string, value: string, circuit: string | undefined): PlacementReason =>
  fault('declared-unknown', { field, value, ...(circuit !== undefined && { circuit }) })

/** From the structure named back to the one named ahead; crews who look the other way name them the other way round. */
interface NamedSpan {
  section: number
  backM: number
  aheadM: number
}

type Places = readonly StructurePlace[] | undefined

function namedSpans(network: Network, back: Places, ahead: Places): NamedSpan[] {
  if (back && ahead) return between(back, ahead)
  const alone = back ? back.map((place) => spanFrom(network, place, 1)) : (ahead ?? []).map((place) => spanFrom(network, place, -1))
  return alone.filter((span) => span !== undefined)
}

function between(back: readonly StructurePlace[], ahead: readonly StructurePlace[]): NamedSpan[] {
  return back.flatMap((from) => ahead
    .filter((to) => to.section === from.section && Math.abs(to.lineDistanceM - from.lineDistanceM) > 0.5)
    .map((to) => ({ section: from.section, backM: from.lineDistanceM, aheadM: to.lineDistanceM })))
}

function spanFrom(network: Network, { section, lineDistanceM }: StructurePlace, way: -1 | 1): NamedSpan | undefined {
  const index = spanAt(network, section, lineDistanceM + way * 0.5)
  const span = index === undefined ? undefined : network.spans[index]
  if (!span) return undefined
  const otherM = way === 1 ? span.endM : span.startM
  const endM = Math.abs(otherM - lineDistanceM) > 0.5 ? otherM : way === 1 ? span.startM : span.endM
  return way === 1 ? { section, backM: lineDistanceM, aheadM: endM } : { section, backM: endM, aheadM: lineDistanceM }
}

/** Undefined: the offset leads out of the span. Without a named structure back an offset has no start and fixes nothing. */
function fixed({ section, backM, aheadM }: NamedSpan, point: PointToPlace, fromBack: boolean): DeclaredPlace | undefined {
  const lengthM = Math.abs(aheadM - backM)
  const byFractionM = point.spanFraction === undefined ? undefined : point.spanFraction * lengthM
  const aheadOfBackM = fromBack ? point.offsetFromStructureM ?? byFractionM : undefined
  if (aheadOfBackM === undefined) return { section, fromM: Math.min(backM, aheadM), toM: Math.max(backM, aheadM) }
  if (aheadOfBackM < -OFFSET_SLACK_M || aheadOfBackM > lengthM + OFFSET_SLACK_M) return undefined
  const atM = backM + Math.sign(aheadM - backM) * Math.min(Math.max(aheadOfBackM, 0), lengthM)
  return { section, fromM: atM, toM: atM }
}
