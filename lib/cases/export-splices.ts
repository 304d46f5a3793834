import type { SpliceFilter } from '@/lib/contract/filter'
import { listCircuits } from '@/lib/store/circuits'
import { corridorNames } from '@/lib/store/corridors'
import { positionTextOf } from '@/lib/store/position'
import type { Scope } from '@/lib/store/scope'
import { countSplices, splicesToWrite, type ExportedSplice } from '@/lib/store/splices'
import { aboutExport, type AboutExport } from './export/about'
import type { ExportRow } from './export/columns'
import { splicesCsv } from './export/csv'
import { splicesGeojson } from './export/geojson'
import { splicesGpx } from './export/gpx'
import { splicesKml } from './export/kml'

const WRITERS = { csv: splicesCsv, geojson: splicesGeojson, gpx: splicesGpx, kml: splicesKml }
export type SpliceFileFormat = keyof typeof WRITERS

/** What is on screen, west to north as the list takes it. */
export interface SplicesWanted {
  filter: SpliceFilter
  bbox?: [west: number, south: number, east: number, north: number]
  /** Whom the file is for, and what for. */
  recipient?: string
}

/**
 * Every splice in service that the list would show, as a file that says of itself as of when it is, how it is to be handled and what urgent and
 * critical it leaves out; written as it is read.
 * @param origin 'https://host' of the address that was asked, for the addresses of sheets
 */
export async function exportSplices(
  scope: Scope, format: SpliceFileFormat, { filter, bbox, recipient }: SplicesWanted, origin: string, nowMs: number,
): Promise<{ fileName: string; text: AsyncGenerator<string> }> {
  const [all, kept] = await Promise.all([countSplices(scope), countSplices(scope, filter, bbox)])
  const leftOut = { urgent: Math.max(0, all.urgent - kept.urgent), critical: Math.max(0, all.critical - kept.critical) }
  const [about, position, corridors] = await Promise.all([aboutExport(scope, nowMs, { origin, leftOut, recipient }), positionTextOf(scope), corridorNames(scope)])
  return { fileName: fileNameOf(about, format), text: WRITERS[format](about, inPlace()) }

  async function* inPlace(): AsyncGenerator<ExportRow> {
    const rows = format === 'kml' ? byCircuit(scope, filter, bbox) : splicesToWrite(scope, filter, bbox)
    for await (const splice of rows) {
      yield { ...splice, place: position(splice), corridor: corridors.get(splice.circuit_id) ?? null }
    }
  }
}

async function* byCircuit(scope: Scope, filter: SpliceFilter, bbox: SplicesWanted['bbox']): AsyncGenerator<ExportedSplice> {
  const circuits = await listCircuits(scope)
  for (const { id } of circuits) {
    if (!filter.circuitIds || filter.circuitIds.includes(id)) yield* splicesToWrite(scope, { ...filter, circuitIds: [id] }, bbox)
  }
}

const fileNameOf = ({ day }: AboutExport, format: SpliceFileFormat): string => `splices-${day}.${format}`
