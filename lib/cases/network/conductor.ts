import { conductorAt, lineDistances, nameKey } from '@/lib/geo'
import type { SectionRow } from '@/lib/store/network-rows'

/** A stored section with what geometry needs of it. */
export interface SectionLine {
  id: number
  circuitId: number
  circuit: string
  section: string
  lateralOffsetM: number
  lonLat: Float64Array
  /** Line distance of each vertex, metres. */
  distancesM: Float64Array
  lengthM: number
}

export function sectionLine(row: SectionRow): SectionLine {
  const lonLat = Float64Array.from(row.lon_lat)
  return {
    id: row.id, circuitId: row.circuit_id, circuit: row.circuit, section: row.name, lateralOffsetM: row.lateral_offset_m ?? 0, lonLat,
    distancesM: lineDistances(lonLat), lengthM: row.length_m,
  }
}

export const sectionKey = (circuit: string, section: string): string => `${nameKey(circuit)}\n${nameKey(section)}`

/** Point of a circuit's conductor, beside the centreline, at a line distance in metres; degrees. */
export function conductorPoint({ lonLat, distancesM, lateralOffsetM }: SectionLine, lineDistanceM: number): { lon: number; lat: number } {
  const [lon, lat] = conductorAt(lonLat, lateralOffsetM, lineDistanceM, distancesM)
  return { lon, lat }
}
