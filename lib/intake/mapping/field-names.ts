import { quantityOf, type Quantity } from '@/lib/units/convert'
import type { Field } from '../kinds/field'
import { KINDS } from '../kinds/kinds'
import { IMPORT_KINDS, type ImportKind } from '../types'
import { compact, headerNames } from './header-name'

/** Headers that mean a field, made comparable; `bases` count only where the header names a unit of the field's quantity. */
export interface FieldNames {
  field: Field
  template: string
  synonyms: ReadonlySet<string>
  bases: ReadonlySet<string>
  weak: readonly string[]
  quantity: Quantity | null
}

/** A distance along the line may be written as feet stations, other lengths may not. */
export const quantityOfField = (field: Field): Quantity | null =>
  field.unit === undefined ? null : field.name === 'line_distance_m' ? 'line-distance' : quantityOf(field.unit)

function namesOf(field: Field): FieldNames {
  const synonyms = field.synonyms.map(compact)
  const { base } = headerNames(field.name)
  return {
    field,
    template: compact(field.name),
    synonyms: new Set(field.unit === undefined ? synonyms : [...synonyms, base]),
    bases: new Set([...synonyms, base, compact(field.name), ...(field.besideUnit ?? []).map(compact)]),
    weak: (field.weakSynonyms ?? []).map(compact),
    quantity: quantityOfField(field),
  }
}

export const FIELD_NAMES = Object.fromEntries(IMPORT_KINDS.map((kind) => [kind, KINDS[kind].fields.map(namesOf)])) as unknown as
  Readonly<Record<ImportKind, readonly FieldNames[]>>
