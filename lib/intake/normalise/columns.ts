import { isUnit, unitLabel } from '@/lib/units/convert'
import { isTimeZone } from '@/lib/units/time'
import { type ReadCell, shown } from '../cells/cell-report'
import { readerOf, type ReaderSetting, unitFits } from '../cells/reader'
import { withoutGuard } from '../cells/spreadsheet'
import type { Field } from '../kinds/field'
import { KINDS } from '../kinds/kinds'
import { openUnitOf } from './open-unit'
import type { ColumnMapping, ImportKind, Mapping, RawRow } from '../types'
import { valueProblems } from './always'

/** One field and where its text comes from; a date and a time in two columns are joined by a blank. */
export interface ColumnPlan {
  field: Field
  /** Positions in the table's columns; none where only `always` speaks. */
  at: number[]
  /** What is read where the row says nothing; '' where nobody said so. */
  always: string
  columns: string[]
  read: ReadCell
  /** The cell that was read last without a word, and its value: circuits and crews repeat from row to row. */
  lastText: string
  lastValue: unknown
  repeats: boolean
}

export interface Plans {
  kind: ImportKind
  columns: ColumnPlan[]
  /** Required fields that no column is mapped to: every row lacks them. */
  unmapped: string[]
}

const REPEATING = new Set<Field['type']>(['identifier', 'text', 'choice', 'phase', 'boolean'])

/** Columns to read, in the order of the kind's table. Fields that no column is mapped to are not read at all. */
export function planColumns(mapping: Mapping, columns: readonly string[], setting: ReaderSetting): Plans {
  const plans: Plans = { kind: mapping.kind, columns: [], unmapped: [] }
  const positions = new Map(columns.map((column, at) => [column, at] as const))
  for (const field of KINDS[mapping.kind].fields) {
    const mapped = mapping.columns.filter((column) => column.field === field.name && positions.has(column.column))
    const used = field.type === 'instant' ? mapped : mapped.slice(0, 1)
    const always = mapping.values?.[field.name] ?? ''
    const [first] = used
    if (!first && always === '') {
      if (field.required) plans.unmapped.push(field.name)
      continue
    }
    plans.columns.push({
      field, always,
      at: used.map((column) => positions.get(column.column)!),
      columns: first ? used.map((column) => column.column) : [field.name],
      read: first
        ? readerOf(field, first.unit, ofColumn(setting, first), openUnitOf(mapping, field, first, setting.assume)) : readerOf(field, undefined, setting),
      lastText: '',
      lastValue: null,
      repeats: REPEATING.has(field.type),
    })
  }
  return plans
}

const ofColumn = (setting: ReaderSetting, { decimalComma }: ColumnMapping): ReaderSetting =>
  ({ ...setting, decimalComma: setting.decimalComma ?? decimalComma })

/** What a mapping says that cannot be done, in sentences; empty where it can be used. */
export function mappingProblems(mapping: Mapping, columns: readonly string[]): string[] {
  const problems: string[] = []
  const table = KINDS[mapping.kind]
  const known = new Set(columns)
  let lacks = false
  for (const column of mapping.columns) {
    if (!known.has(column.column)) {
      problems.push(`The file has no column '${column.column}'.`)
      lacks = true
    }
    if (column.field !== null && !table.fields.some((field) => field.name === column.field)) {
      problems.push(`'${column.field}' is no field of ${table.label.toLowerCase()}.`)
    }
  }
  for (const field of table.fields) {
    const mapped = mapping.columns.filter((column) => column.field === field.name)
    if (mapped.length > 1 && field.type !== 'instant') {
      problems.push(`Several columns are mapped to ${field.name}: ${mapped.map((column) => column.column).join(', ')}. Keep one.`)
    }
    for (const { column, unit } of mapped) {
      if (field.unit === undefined || unitFits(field, unit)) continue
      problems.push(`${field.name} is measured in ${unitLabel(field.unit)}, and column ${column} is set to ${unitName(unit)}.`)
    }
    if (mapped.length === 0 && field.required && !mapping.values?.[field.name]) {
      problems.push(`No column is mapped to ${field.name}, which every row needs.`)
      lacks = true
    }
  }
  for (const [name, text] of Object.entries(mapping.values ?? {})) problems.push(...valueProblems(mapping, name, text))
  if (lacks) problems.push(columnsOf(columns))
  if (mapping.timeZone !== undefined && !isTimeZone(mapping.timeZone)) {
    problems.push(`'${mapping.timeZone}' is no time zone; write one such as America/Denver.`)
  }
  return problems
}

const SHOWN_COLUMNS = 12

/** The columns that there are, for somebody who looks for another. */
export function columnsOf(columns: readonly string[]): string {
  const names = columns.slice(0, SHOWN_COLUMNS).map((column) => `'${shown(column)}'`)
  const rest = columns.length - names.length
  const all = rest > 0 ? `${names.join(', ')} and ${rest} more` : names.length > 1 ? `${names.slice(0, -1).join(', ')} and ${names.at(-1)}` : names.join()
  return columns.length === 1 ? `Its only column is ${all}.` : `Its columns are ${all}.`
}

const unitName = (unit: string | undefined): string => (unit !== undefined && isUnit(unit) ? unitLabel(unit) : String(unit))

const blankAt = (text: string): boolean => {
  const first = text.charCodeAt(0)
  const last = text.charCodeAt(text.length - 1)
  return first <= 32 || last <= 32 || first === 160 || last === 160
}

/**
 * A plan's text in a row, without blanks around it and without the apostrophe that our own CSV and others put before what a
 * spreadsheet would run; '' where it says nothing.
 */
export function textOf(plan: ColumnPlan, values: readonly string[]): string {
  if (plan.at.length === 0) return ''
  if (plan.at.length > 1) return plan.at.map((at) => bare(values[at] ?? '')).filter((part) => part !== '').join(' ')
  return bare(values[plan.at[0]!] ?? '')
}

function bare(cell: string): string {
  const text = cell.charCodeAt(0) === APOSTROPHE ? withoutGuard(cell) : cell
  return text !== '' && blankAt(text) ? text.trim() : text
}

const APOSTROPHE = 39

/** A row's cells in the order of the columns, where the format has them by name only. */
export const valuesOf = (raw: RawRow, columns: readonly string[]): readonly string[] => raw.values ?? columns.map(
  (column) => raw.cells[column] ?? ''
)
