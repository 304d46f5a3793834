import type { Geometry } from 'geojson'
import type { JsonElement } from '../text/json-elements'
import type { RowIssue } from '../types'

export interface Feature {
  row: number
  /** Property → text, in the file's order. */
  cells: Map<string, string>
  geometry: Geometry | undefined
  raw: string
}

const GEOMETRY_TYPES = new Set(['Point', 'MultiPoint', 'LineString', 'MultiLineString', 'Polygon', 'MultiPolygon', 'GeometryCollection'])

/** Deeper nesting than any GeoJSON has; printing it would exhaust the stack. */
const MAX_DEPTH = 100

type JsonObject = Record<string, unknown>

const isObject = (value: unknown): value is JsonObject => typeof value === 'object' && value !== null && !Array.isArray(value)

/** One element of the file as a row, or why it is none. */
export function readFeature({ text, depth }: JsonElement, row: number): Feature | RowIssue {
  const raw = text.replaceAll('\0', '\u2400')
  const refused = (code: string, message: string, remedy: string): RowIssue =>
    ({ severity: 'error', row, code, message: `Feature ${row}: ${message}`, remedy, raw })
  if (depth > MAX_DEPTH) return refused('too-deep', `it is nested more than ${MAX_DEPTH} levels deep.`, 'Export it as plain GeoJSON.')
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch (error) {
    return refused(
      'bad-json', `it is not valid JSON (${error instanceof Error ? error.message.slice(0, 200) : 'unreadable'}).`,
      'Correct the feature; NaN, Infinity, comments and commas before a closing bracket are not JSON.',
    )
  }
  if (!isObject(value)) return refused('not-a-feature', 'it is no object.', 'Every element of "features" must be a Feature.')
  const type = typeof value.type === 'string' ? value.type : ''
  if (GEOMETRY_TYPES.has(type)) return { row, cells: new Map(), geometry: value as unknown as Geometry, raw }
  if (type !== 'Feature') {
    return refused(
      'not-a-feature', `its type is '${type.slice(0, 40)}', neither Feature nor geometry.`, 'Set "type": "Feature" (RFC 7946 section 3.2).'
    )
  }
  const properties = value.properties ?? {}
  if (!isObject(properties)) return refused('bad-properties', 'its properties are no object.', 'Give "properties" as an object or null.')
  const geometry = isObject(value.geometry) ? (value.geometry as unknown as Geometry) : undefined
  return { row, cells: cellsOf(properties, value.id, text), geometry, raw }
}

/** An object's members as cells: arrays of plain values are lists, objects stay JSON. `text` is what the object was parsed from. */
export function cellsOfObject(object: JsonObject, text: string): Map<string, string> {
  const cells = new Map<string, string>()
  for (const [name, value] of Object.entries(object)) cells.set(clean(name), cellText(value, name, text))
  return cells
}

function cellsOf(properties: JsonObject, id: unknown, text: string): Map<string, string> {
  const cells = cellsOfObject(properties, text)
  if ((typeof id === 'string' || typeof id === 'number') && !cells.has('id')) cells.set('id', cellText(id, 'id', text))
  return cells
}

function cellText(value: unknown, name: string, text: string): string {
  if (typeof value === 'string') return clean(value)
  if (typeof value === 'number') return hasLostDigits(value) ? longDigits(value, name, text) : String(value)
  if (value === null || value === undefined) return ''
  if (Array.isArray(value) && value.every((item) => typeof item !== 'object')) return clean(value.join(';'))
  return clean(typeof value === 'object' ? JSON.stringify(value) : String(value))
}

const hasLostDigits = (value: number): boolean => Number.isInteger(value) && !Number.isSafeInteger(value)

/** An id of more digits than a number holds is taken from the text, digit for digit. */
function longDigits(value: number, name: string, text: string): string {
  const pattern = new RegExp(`${JSON.stringify(name).replace(/[\\^$.*+?()[\]{}|]/g, '\\$&')}\\s*:\\s*(-?\\d+)\\s*[,}]`)
  return pattern.exec(text)?.[1] ?? String(value)
}

/** No store holds a zero character or half a surrogate pair. */
const clean = (text: string): string => text.toWellFormed().replaceAll('\0', '\u2400')
