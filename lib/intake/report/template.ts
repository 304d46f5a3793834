import { KINDS, templateFields } from '../kinds/kinds'
import type { ImportKind } from '../types'
import { csvLine } from './guard-cell'

/** The template's header line. No example row: people would import it. */
export const templateCsv = (kind: ImportKind): string => csvLine(templateFields(kind).map((field) => field.name))

/** The table of a kind's columns for the documentation: name, unit or words, required, meaning, example. */
export interface FieldDescription {
  name: string
  type: string
  unit: string | null
  range: string | null
  words: string[]
  required: boolean
  description: string
  example: string
}

export function describeKind(kind: ImportKind): FieldDescription[] {
  return KINDS[kind].fields.map((field) => ({
    name: field.name,
    type: field.type,
    unit: field.unit ?? null,
    range: field.min === undefined && field.max === undefined ? null : `${field.min ?? ''} … ${field.max ?? ''}`,
    words: Object.keys(field.choices ?? {}),
    required: field.required === true,
    description: field.description,
    example: field.example,
  }))
}
