import type { NumberKey } from './numbers'

export type FieldKey = NumberKey | 'conductor' | 'on' | 'kind' | 'test' | 'sun' | 'band'

/** Something that spoils a reading or keeps it from proving anything: caught while it is typed, beside the fields it stands on. */
export interface Spoil {
  code: string
  fields: readonly FieldKey[]
  /** Short, for beside the field. */
  title: string
  /** What it does and the remedy; quantities already in the reader's units. */
  text: string
}

/** What stands beside each field: the first that concerns it. */
export function besideFields(spoils: readonly Spoil[]): Map<FieldKey, string> {
  const beside = new Map<FieldKey, string>()
  for (const { fields, title } of spoils) for (const field of fields) if (!beside.has(field)) beside.set(field, title)
  return beside
}
