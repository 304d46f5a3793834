import { aboutText, type AboutExport } from './about'
import { cellsOf, describedText, type ExportRow } from './columns'
import { classGeometry, classStyles } from './kml-styles'
import { element, xmlText } from './xml'

/**
 * KML 2.2 (OGC 07-147r2): a folder for each circuit, in it a placemark for each splice in the colour and shape of its class, with its columns as
 * ExtendedData. The children of Document, Folder and Placemark follow the order of the schema's AbstractFeatureType, with the geometry last.
 * @param rows one circuit after another
 */
export async function* splicesKml(about: AboutExport, rows: AsyncIterable<ExportRow>): AsyncGenerator<string> {
  yield `<?xml version="1.0" encoding="UTF-8"?>\n<kml xmlns="http://www.opengis.net/kml/2.2">\n<Document>${element('name', `Splices, ${about.mark}`)}${element('description', aboutText(about))}\n${classStyles()}`
  let open: number | null = null
  for await (const row of rows) {
    if (row.circuit_id !== open) yield `${open === null ? '' : '</Folder>\n'}<Folder>${element('name', row.circuit)}\n`
    open = row.circuit_id
    yield placemark(row, about)
  }
  yield `${open === null ? '' : '</Folder>\n'}</Document>\n</kml>\n`
}

function placemark(row: ExportRow, about: AboutExport): string {
  const data = cellsOf(row, about).filter(([, cell]) => cell !== null).map(([column, cell]) => `<Data name="${xmlText(column)}">${element('value', String(cell))}</Data>`)
  return `<Placemark>${element('name', `${row.splice} ${row.class}`)}${element('description', describedText(row, about))}${element('styleUrl', `#${row.class}`)}`
    + `<ExtendedData>${data.join('')}</ExtendedData>${classGeometry(row.class, row.lon, row.lat)}</Placemark>\n`
}
