import type { AboutExport } from './about'
import { cellsOf, type ExportRow } from './columns'

/**
 * A FeatureCollection of RFC 7946 with a point for each splice. What the file says of itself stands as foreign members (section 6.1) and again
 * with every feature, because programs drop the former.
 */
export async function* splicesGeojson(about: AboutExport, rows: AsyncIterable<ExportRow>): AsyncGenerator<string> {
  const { asOf: as_of, mark: information_mark, recipient, leftOut: left_out, caution, utility } = about
  yield `${JSON.stringify({ type: 'FeatureCollection', information_mark, recipient, as_of, left_out, utility, caution }).slice(0, -1)},"features":[`
  let isFirst = true
  for await (const row of rows) {
    yield `${isFirst ? '' : ','}\n${JSON.stringify(featureOf(row, about))}`
    isFirst = false
  }
  yield '\n]}\n'
}

function featureOf(row: ExportRow, about: AboutExport) {
  const { lon, lat, ...properties } = Object.fromEntries(cellsOf(row, about))
  return { type: 'Feature', geometry: { type: 'Point', coordinates: [lon, lat] }, properties }
}
