import { type ColumnMapping, IMPORT_KINDS, type ImportKind, type Mapping, type RawRow } from '../types'
import { KINDS } from '../kinds/kinds'
import { type Assigned, assignColumns } from './assign'
import { guessUnit } from './guess-unit'
import { compact } from './header-name'
import { dateOrderOf, decimalCommaOf, Sample } from './sample'

/**
 * What a file's columns probably mean, to be shown and corrected.
 * @param sampleRows the first rows (50 are plenty): they tell units, decimal commas and the order of dates, and veto what headers promise
 * @param kind where the user said what the file is; else the kind that fits best is taken
 * @param remembered a mapping confirmed for a file with the same columns; it wins
 */
export function guessMapping(columns: readonly string[], sampleRows: readonly RawRow[], kind?: ImportKind, remembered?: Mapping): Mapping {
  if (remembered && (kind === undefined || kind === remembered.kind)) return recall(columns, remembered)
  const sample = new Sample(columns, sampleRows)
  const guesses = (kind ? [kind] : IMPORT_KINDS).map((each) => ({ kind: each, assigned: assignColumns(each, columns, sample) }))
  const scored = guesses.map((guess) => ({ ...guess, score: kind ? 0 : scoreOf(guess.kind, guess.assigned, sampleRows) }))
  const best = scored.reduce((a, b) => (b.score > a.score ? b : a))
  return toMapping(best.kind, best.assigned, columns, sample)
}

function recall(columns: readonly string[], remembered: Mapping): Mapping {
  const known = new Map(remembered.columns.map((column) => [column.column, column] as const))
  return {
    ...remembered,
    columns: columns.map((column): ColumnMapping => {
      const mapped = known.get(column)
      return mapped?.field ? { ...mapped, basis: 'remembered' } : { column, field: null, basis: 'none' }
    }),
  }
}

function scoreOf(kind: ImportKind, assigned: readonly Assigned[], rows: readonly RawRow[]): number {
  const mapped = new Set(assigned.map(({ names }) => names.field.name))
  let score = assigned.reduce((sum, { weight }) => sum + weight, 0)
  for (const field of KINDS[kind].fields) if (field.required && !mapped.has(field.name)) score -= 4
  const lines = rows.some((row) => row.geometry?.type === 'LineString' || row.geometry?.type === 'MultiLineString')
  const points = rows.some((row) => row.geometry?.type === 'Point')
  // A table without any geometry may still be meant for lines, and is then told that it cannot be.
  if (kind === 'lines') score += lines ? 20 : rows.some((row) => row.geometry) ? -20 : -6
  else if (lines) score -= 20
  // A kind of which nothing is known is no better guess than one of which something is.
  if (assigned.length === 0) score -= 1
  const { needsOneOf } = KINDS[kind]
  // Without something measured a table of places is no table of readings.
  if (needsOneOf) score += needsOneOf.some((name) => mapped.has(name)) ? 4 : -6
  if (kind === 'splices' && assigned.length > 0 && !saysSplice(assigned)) score -= 3
  if (kind === 'structures' && !points && !mapped.has('lon') && !mapped.has('line_distance_m')) score -= 4
  return score
}

/** What only a splice has, or a circuit with places in it has not: without one, a table of places is no list of splices. */
const OF_A_SPLICE = new Set(['splice_id', 'phase', 'position', 'subconductor', 'kind', 'fitting_type', 'barrel_od_mm', 'barrel_length_mm', 'successor_of'])

/** An 'id' may be anybody's. */
const ANYBODYS = new Set(['id', 'assetid'])

function saysSplice(assigned: readonly { names: { field: { name: string } }; columns: readonly string[] }[]): boolean {
  return assigned.some(({ names: { field }, columns }) => OF_A_SPLICE.has(field.name) && columns.some((column) => !ANYBODYS.has(compact(column))))
}

/** Whether columns that were taken for splices have anything of a splice; a guess without it is put to a person. */
export const hasSplice = ({ columns }: Mapping): boolean =>
  saysSplice(columns.flatMap(({ column, field }) => (field === null ? [] : [{ names: { field: { name: field } }, columns: [column] }])))

function toMapping(kind: ImportKind, assigned: readonly Assigned[], columns: readonly string[], sample: Sample): Mapping {
  const byColumn = new Map(assigned.flatMap((each) => each.columns.map((column) => [column, each] as const)))
  const cellsOf = (...types: string[]): string[] =>
    assigned.filter(({ names }) => types.includes(names.field.type)).flatMap(
      (each) => each.columns.flatMap((column) => sample.filled(column))
    )
  const decimalComma = decimalCommaOf(cellsOf('number', 'integer', 'longitude', 'latitude'))
  const dateOrder = dateOrderOf(cellsOf('instant', 'day'))
  const clock = assigned.find(({ names }) => names.field.type === 'instant')?.columns.join(' ') ?? ''
  return {
    kind,
    columns: columns.map((column): ColumnMapping => {
      const match = byColumn.get(column)
      if (!match) return { column, field: null, basis: 'none' }
      const unit = guessUnit(match.names, column, sample)
      return { column, field: match.names.field.name, ...(unit !== undefined && { unit }), basis: match.basis }
    }),
    ...(decimalComma !== undefined && { decimalComma }),
    ...(dateOrder !== undefined && { dateOrder }),
    ...(/(^|[^a-z])(utc|gmt|zulu)([^a-z]|$)/i.test(clock) && { timeZone: 'UTC' }),
  }
}
