import { readFeature } from '../formats/geojson-feature'
import { recordsOfText } from '../text/csv-records'

const DELIMITERS = [',', ';', '\t', '|'] as const

/**
 * A rejected record's cells under the file's own columns, out of its raw text: a GeoJSON feature's properties, or the cells
 * of a CSV record, by the file's delimiter or else the one that gives as many as there are columns. A record that fits no
 * columns stands whole in the first.
 */
export function cellsOfRaw(raw: string, columns: readonly string[], delimiter?: string): string[] {
  if (raw.startsWith('{')) {
    const feature = readFeature({ text: raw, depth: 0 }, 0)
    if (!('severity' in feature)) return columns.map((column) => feature.cells.get(column) ?? '')
  }
  for (const mark of delimiter === undefined ? DELIMITERS : [delimiter]) {
    const records = recordsOfText(raw, mark)
    const first = records[0]
    if (records.length === 1 && first && !first.unterminated && first.values.length === columns.length) return first.values
  }
  return columns.map((_, at) => (at === 0 ? raw : ''))
}
