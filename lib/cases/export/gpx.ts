import { aboutText, type AboutExport } from './about'
import { describedText, dutyText, standingText, type ExportRow } from './columns'
import { element, xmlText } from './xml'

const OPENING = '<?xml version="1.0" encoding="UTF-8"?>\n'
  + '<gpx version="1.1" creator="Spanledger" xmlns="http://www.topografix.com/GPX/1/1" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" '
  + 'xsi:schemaLocation="http://www.topografix.com/GPX/1/1 http://www.topografix.com/GPX/1/1/gpx.xsd">\n'

/**
 * GPX 1.1 (TopoGrafix, gpx.xsd): a waypoint for each splice, for a crew's receiver. Receivers show name and comment, so the class and the mark
 * stand there. The children of metadata and wpt follow the order of the schema's sequences.
 */
export async function* splicesGpx(about: AboutExport, rows: AsyncIterable<ExportRow>): AsyncGenerator<string> {
  yield `${OPENING}<metadata>${element('name', 'Splices')}${element('desc', aboutText(about))}${about.utility ? `<author>${element('name', about.utility)}</author>` : ''}${element('time', about.asOf)}</metadata>\n`
  for await (const row of rows) yield waypoint(row, about)
  yield '</gpx>\n'
}

function waypoint(row: ExportRow, about: AboutExport): string {
  return `<wpt lat="${row.lat.toFixed(7)}" lon="${row.lon.toFixed(7)}">${row.last_reading_at === null ? '' : element('time', row.last_reading_at)}`
    + `${element('name', row.splice)}${element('cmt', [standingText(row), dutyText(row, about), `${row.circuit}, ${row.place}`].filter(Boolean).join('. '))}`
    + `${element('desc', describedText(row, about))}<link href="${xmlText(`${about.origin}/splices/${row.id}`)}">${element('text', 'Sheet')}</link>${element('type', row.class)}</wpt>\n`
}
