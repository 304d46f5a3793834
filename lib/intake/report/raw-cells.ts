import type { Geometry } from 'geojson'
import { cellsOfObject, readFeature } from '../formats/geojson-feature'
import { DELIMITERS, recordsOfText } from '../text/csv-records'

/** A record's own cells, as many as it had. */
export interface OwnCells {
  cells: string[]
  geometry?: Geometry
}

/** What a raw record that begins with a brace was: a feature, an object of the API, or text that only looks like one. */
export function objectOfRaw(raw: string): { cells: Map<string, string>; geometry?: Geometry; isFeature: boolean } | null {
  if (!raw.startsWith('{')) return null
  const feature = readFeature({ text: raw, depth: 0 }, 0)
  if (!('severity' in feature)) return { cells: feature.cells, geometry: feature.geometry, isFeature: true }
  try {
    const value: unknown = JSON.parse(raw)
    if (typeof value !== 'object' || value === null) return null
    return { cells: cellsOfObject(value as Record<string, unknown>, raw), isFeature: false }
  } catch {
    return null
  }
}

/**
 * A rejected record's cells under the file's own columns, out of its raw text: a feature's properties, an object's members, or
 * the cells of a CSV record, by the file's delimiter or else the one that gives as many as there are columns. A CSV record keeps
 * the number of its cells, right or wrong; one with a quote that was never closed stands whole in the first.
 */
export function cellsOfRaw(raw: string, columns: readonly string[], delimiter?: string): OwnCells {
  const object = objectOfRaw(raw)
  if (object) return { cells: columns.map((column) => object.cells.get(column) ?? ''), geometry: object.geometry }
  const read = (delimiter === undefined ? DELIMITERS : [delimiter]).map((mark) => recordsOfText(raw, mark))
  const whole = read.filter((records) => records.length === 1 && records[0]?.unterminated === false).map((records) => records[0]!.values)
  const fitting = whole.find((values) => values.length === columns.length) ?? whole.reduce<string[]>((a, b) => (b.length > a.length ? b : a), [])
  return { cells: fitting.length > 0 ? fitting : [raw] }
}
