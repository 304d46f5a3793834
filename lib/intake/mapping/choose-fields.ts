import { detectHeaderUnit } from '@/lib/units/detect'
import type { ImportKind, Mapping, RawRow } from '../types'
import { FIELD_NAMES } from './field-names'
import { guessUnit } from './guess-unit'
import { Sample } from './sample'

/** Which column of the file holds a field, as a person said. */
export interface FieldChoice {
  field: string
  column: string
}

/**
 * A guessed mapping with what a person said about single fields. A chosen column leaves what it was taken for, and a chosen field leaves
 * its other columns. Columns are found by their header, whatever its case and blanks; one that is not there is left for
 * `mappingProblems` to name.
 */
export function withChosenFields(mapping: Mapping, choices: readonly FieldChoice[], columns: readonly string[], rows: readonly RawRow[]): Mapping {
  if (choices.length === 0) return mapping
  const chosen = new Map(choices.map(({ field, column }) => [columnCalled(column, columns), field] as const))
  const fields = new Set(chosen.values())
  const sample = new Sample(columns, rows)
  const kept = mapping.columns.filter(({ column }) => !chosen.has(column)).map((one) => (
    one.field !== null && fields.has(one.field) ? { column: one.column, field: null, basis: 'none' as const } : one))
  const said = [...chosen].map(([column, field]) => {
    const unit = unitOf(mapping.kind, field, column, sample)
    return { column, field, ...(unit !== undefined && { unit }), basis: 'user' as const }
  })
  const order = new Map(columns.map((column, at) => [column, at] as const))
  const place = (column: string) => order.get(column) ?? columns.length
  return { ...mapping, columns: [...kept, ...said].sort((a, b) => place(a.column) - place(b.column)) }
}

/** A column by its header, whatever its case and blanks; the name itself where there is none. */
export function columnCalled(name: string, columns: readonly string[]): string {
  if (columns.includes(name)) return name
  const same = columns.filter((column) => column.trim().toLowerCase() === name.trim().toLowerCase())
  return same.length === 1 ? same[0]! : name
}

/** The unit that the header or its cells name; where they name none it stays open, and what is taken is told. */
function unitOf(kind: ImportKind, field: string, column: string, sample: Sample): string | undefined {
  const names = FIELD_NAMES[kind].find((each) => each.field.name === field)
  if (!names || names.quantity === null) return undefined
  const unit = detectHeaderUnit(column, names.quantity) ?? guessUnit(names, column, sample)
  return unit === names.field.unit && detectHeaderUnit(column, names.quantity) === null ? undefined : unit
}
