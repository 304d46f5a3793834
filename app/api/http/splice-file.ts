import { exportSplices, type SpliceFileFormat } from '@/lib/cases/export-splices'
import { spliceExportQuery, toSpliceFilter } from '@/lib/contract/filter'
import { originAsked } from './guard'
import { reading } from './handler'
import { refuseUnknownCircuits } from './named-things'
import { streamOf, toKeep } from './respond'

const MEDIA: Record<SpliceFileFormat, string> = {
  csv: 'text/csv; charset=utf-8', geojson: 'application/geo+json', gpx: 'application/gpx+xml', kml: 'application/vnd.google-earth.kml+xml',
}

/** Answers with the splices of the list's filter and box as a file of this format. */
export const spliceFile = (format: SpliceFileFormat) => reading(async (request, { scope, query }) => {
  const { fileName, text } = await exportSplices(scope, format, { filter: toSpliceFilter(query), bbox: query.bbox, recipient: query.recipient }, originAsked(request), Date.now())
  return toKeep(fileName, MEDIA[format], streamOf(text))
}, spliceExportQuery, refuseUnknownCircuits)
