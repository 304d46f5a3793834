import { UNIT_KEYS, unitLabel, unitsAgree } from '@/lib/units/convert'
import type { Field, KindTable } from '../kinds/field'
import { KINDS, templateFields } from '../kinds/kinds'
import type { ImportKind } from '../types'
import { csvLine } from './guard-cell'

/**
 * The template's header line; of lines, which are GeoJSON only, one feature whose properties and course are to be filled. No example
 * row: people would import it.
 */
export function templateOf(kind: ImportKind): { file: string; text: string } {
  const names = templateFields(kind).map((field) => field.name)
  if (KINDS[kind].geometry !== 'line') return { file: `${kind}.csv`, text: csvLine(names) }
  const feature = { type: 'Feature', properties: Object.fromEntries(names.map((name) => [name, null])), geometry: { type: 'LineString', coordinates: [] } }
  return { file: `${kind}.geojson`, text: `${JSON.stringify({ type: 'FeatureCollection', features: [feature] }, null, 2)}\n` }
}

/** One column of a kind for the documentation, in the names of the API. */
export interface FieldDescription {
  name: string
  type: string
  /** Unit key of the template's column, and how it is written. */
  unit: string | null
  unit_label: string | null
  /** Units that a header or a cell may speak in; the template's own first. */
  units: string[]
  /** In the template's unit. */
  range: string | null
  /** What a cell may say, where it is one of few words. */
  words: string[]
  required: boolean
  description: string
  example: string
  /** Headers that are taken for it; case, blanks, accents and punctuation do not count. */
  headers: string[]
  /** Short headers that are taken for it only beside a unit. */
  headers_with_unit: string[]
}

export interface KindDescription {
  kind: ImportKind
  label: string
  description: string
  /** Where each record lies, when the file is GeoJSON. */
  geometry: 'line' | 'point' | 'none'
  /** Fields that every row needs. */
  required: string[]
  /** What a row needs beside them, in a sentence; '' where that is all. */
  needs: string
  /** A small file of one row, as it may be imported: CSV, or GeoJSON where the records are lines. */
  example: string
  fields: FieldDescription[]
}

/** What is read of one kind of file, from the same table that reads it. */
export function describeKind(kind: ImportKind): KindDescription {
  const { label, description, geometry, needs, fields } = KINDS[kind]
  const required = fields.filter((field) => field.required).map((field) => field.name)
  return { kind, label, description, geometry, required, needs, example: exampleOf(KINDS[kind]), fields: fields.map(describeField) }
}

const EXAMPLE_LINE = [[-112.041733, 47.518204], [-112.035121, 47.520017]]

function exampleOf({ geometry, exampleFields, fields }: KindTable): string {
  const cells = exampleFields.map((name) => [name, fields.find((field) => field.name === name)?.example ?? ''] as const)
  if (geometry !== 'line') return csvLine(cells.map(([name]) => name)) + csvLine(cells.map(([, example]) => example))
  const feature = { type: 'Feature', properties: Object.fromEntries(cells), geometry: { type: 'LineString', coordinates: EXAMPLE_LINE } }
  return `${JSON.stringify({ type: 'FeatureCollection', features: [feature] })}\n`
}

function describeField(field: Field): FieldDescription {
  const { name, type, unit, min, max, description, example } = field
  return {
    name, type, unit: unit ?? null, unit_label: unit ? unitLabel(unit) : null, units: unitsOf(field),
    range: min === undefined && max === undefined ? null : `${min ?? ''} to ${max ?? ''}`.trim(),
    words: Object.keys(field.choices ?? {}), required: field.required === true, description, example,
    headers: [name, ...field.synonyms, ...field.weakSynonyms ?? []], headers_with_unit: [...field.besideUnit ?? []],
  }
}

function unitsOf({ name, unit }: Field): string[] {
  if (unit === undefined) return []
  const others = UNIT_KEYS.filter((key) => key !== unit && unitsAgree(key, unit) && (key !== 'ft_station' || name === 'line_distance_m'))
  return [unit, ...others].map(unitLabel)
}
