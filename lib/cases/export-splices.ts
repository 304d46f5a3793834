import type { SpliceFilter } from '@/lib/contract/filter'
import { corridorNames } from '@/lib/store/corridors'
import { positionTextOf } from '@/lib/store/position'
import type { Scope } from '@/lib/store/scope'
import { splicesToWrite } from '@/lib/store/splices'
import { aboutExport, type AboutExport } from './export/about'
import type { ExportRow } from './export/columns'
import { splicesCsv } from './export/csv'
import { splicesGeojson } from './export/geojson'
import { splicesGpx } from './export/gpx'
import { splicesKml } from './export/kml'

const WRITERS = { csv: splicesCsv, geojson: splicesGeojson, gpx: splicesGpx, kml: splicesKml }
export type SpliceFileFormat = keyof typeof WRITERS

/** What is on screen, west to north as the list takes it. */
export interface SplicesWanted { filter: SpliceFilter; bbox?: [west: number, south: number, east: number, north: number] }

/** Every splice in service that the list would show, as a file that says of itself as of when it is and how it is to be handled; written as it is read. */
export async function exportSplices(
  scope: Scope, format: SpliceFileFormat, { filter, bbox }: SplicesWanted, nowMs: number,
): Promise<{ fileName: string; text: AsyncGenerator<string> }> {
  const [about, position, corridors] = await Promise.all([aboutExport(scope, nowMs), positionTextOf(scope), corridorNames(scope)])
  return { fileName: fileNameOf(about, format), text: WRITERS[format](about, inPlace()) }

  async function* inPlace(): AsyncGenerator<ExportRow> {
    for await (const splice of splicesToWrite(scope, filter, bbox)) yield { ...splice, place: position(splice), corridor: corridors.get(splice.circuit_id) ?? null }
  }
}

const fileNameOf = ({ day }: AboutExport, format: SpliceFileFormat): string => `splices-${day}.${format}`
