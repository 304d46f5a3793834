import { aboutText, type AboutExport } from './about'
import { cellsOf, standingText, type ExportRow } from './columns'
import { element, xmlText } from './xml'

/**
 * KML 2.2 (OGC 07-147r2): a placemark for each splice with its columns as ExtendedData. The children of Document and Placemark follow the
 * order of the schema's AbstractFeatureType, with the geometry last. The class is said in words: what a viewer colours is its own.
 */
export async function* splicesKml(about: AboutExport, rows: AsyncIterable<ExportRow>): AsyncGenerator<string> {
  yield `<?xml version="1.0" encoding="UTF-8"?>\n<kml xmlns="http://www.opengis.net/kml/2.2">\n<Document>${element('name', `Splices, ${about.mark}`)}${element('description', aboutText(about))}\n`
  for await (const row of rows) yield placemark(row, about)
  yield '</Document>\n</kml>\n'
}

function placemark(row: ExportRow, about: AboutExport): string {
  const data = cellsOf(row, about).filter(([, cell]) => cell !== null).map(([column, cell]) => `<Data name="${xmlText(column)}">${element('value', String(cell))}</Data>`)
  return `<Placemark>${element('name', `${row.splice} ${row.class}`)}`
    + `${element('description', `${row.circuit}, ${row.place}. ${standingText(row)}. ${aboutText(about)}`)}`
    + `<ExtendedData>${data.join('')}</ExtendedData><Point><coordinates>${row.lon.toFixed(7)},${row.lat.toFixed(7)}</coordinates></Point></Placemark>\n`
}
