import type { MappingJson } from '@/lib/contract/intake'
import type { Field } from '@/lib/intake/kinds/field'
import { KINDS, findField } from '@/lib/intake/kinds/kinds'
import { FIELD_GROUPS, fieldLabel, type FieldGroup } from '@/lib/intake/kinds/labels'
import { unitLabel } from '@/lib/units/convert'
import type { Kind } from './words'

export interface FieldChoice {
  name: string
  label: string
  unit: string | null
  description: string
  required: boolean
  /** Another column that is used as this already. */
  takenBy: string | null
}

export interface FieldChoices {
  group: FieldGroup
  choices: FieldChoice[]
}

const wordsOf = (text: string): string[] => text.toLowerCase().split(/[^\p{L}\p{N}µΩ°%]+/u).filter((w) => w !== '')

const begin = (said: readonly string[], typed: readonly string[]): boolean => {
  const words = said.flatMap(wordsOf)
  return typed.every((word) => words.some((one) => one.startsWith(word)))
}

/** Fields of whose label, heading, unit or name every typed word begins a word; where there is none, of the headers other people use. */
function found(kind: Kind, typed: readonly string[]): readonly Field[] {
  const { fields } = KINDS[kind]
  const byOwnWords = fields.filter((field) => {
    const { label, group } = fieldLabel(kind, field.name)
    return begin([label, group, field.name, field.unit === undefined ? '' : unitLabel(field.unit)], typed)
  })
  return byOwnWords.length > 0 ? byOwnWords : fields.filter((field) => begin(field.synonyms, typed))
}

/** What a column may be used as, by heading, narrowed by what was typed. Headings without a field left are left out. */
export function fieldChoices(kind: Kind, mapping: MappingJson, column: string, query: string): FieldChoices[] {
  const typed = wordsOf(query)
  const takenBy = new Map(mapping.columns.flatMap((c) => (c.field === null || c.column === column ? [] : [[c.field, c.column] as const])))
  const fields = found(kind, typed)
  return FIELD_GROUPS.flatMap((group) => {
    const choices = fields
      .filter((field) => fieldLabel(kind, field.name).group === group)
      .map((field) => ({
        name: field.name,
        label: fieldLabel(kind, field.name).label,
        unit: field.unit === undefined ? null : unitLabel(field.unit),
        description: field.description,
        required: field.required === true,
        // A date and a time may share one moment: they are joined.
        takenBy: field.type === 'instant' ? null : (takenBy.get(field.name) ?? null),
      }))
    return choices.length === 0 ? [] : [{ group, choices }]
  })
}

/** 'Side A resistance', or nothing where a column is not used. */
export const labelOf = (kind: Kind, field: string | null): string | null =>
  field === null ? null : findField(kind, field) ? fieldLabel(kind, field).label : field
