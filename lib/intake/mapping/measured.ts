import { quantityOf } from '@/lib/units/convert'
import { detectHeaderUnit, splitCell } from '@/lib/units/detect'
import { shown } from '../cells/cell-report'
import { KINDS } from '../kinds/kinds'
import type { ImportKind, Mapping, RawRow } from '../types'
import { FIELD_NAMES } from './field-names'
import { compact } from './header-name'
import { looksLikeDate, Sample } from './sample'

/** What speaks for readings among columns that a kind leaves unread: for certain (an ohm, a temperature), and perhaps (a ratio, amperes, a time). */
export interface Measured { sure: string[]; perhaps: string[] }

const SURE_WORDS = /ohm|Ω|r[eé]sist|widerstand|(?:^|[^a-z])temps?(?![a-z])|temp[eé]rat|celsius|fahrenheit|kelvin|°\s?[CFK](?![a-z])|hot\s?spot/i
const PERHAPS_WORDS = /(?:^|[^a-z])(?:ratio|delta|amps?|amperes?|readings?|measured|measurements?)(?![a-z])|δ|messwert|messung|mesure|medici[oó]n|[([{]\s*[AK]\s*[)\]}]/i
const TIME_OF_DAY = /\d{1,2}:\d{2}/

const TIME_NAMES = FIELD_NAMES.readings.find(({ field }) => field.name === 'taken_at')?.synonyms ?? new Set<string>()

/** Columns that no field was found for and that carry a unit or a name of something measured, or a moment. A list of places or splices has none of them. */
export function measuredColumns(unread: readonly string[], sample: Sample): Measured {
  const sure = unread.filter((column) => isSure(column, sample))
  return { sure, perhaps: unread.filter((column) => !sure.includes(column) && isPerhaps(column, sample)) }
}

const SURE = new Set(['resistance', 'temperature'])

function isSure(column: string, sample: Sample): boolean {
  const unit = detectHeaderUnit(column)
  if (unit !== null && SURE.has(quantityOf(unit))) return true
  return SURE_WORDS.test(column) || mostCells(column, sample, (cell) => {
    const named = splitCell(cell)?.unit
    return named !== undefined && named !== null && quantityOf(named) === 'resistance'
  })
}

function isPerhaps(column: string, sample: Sample): boolean {
  if (PERHAPS_WORDS.test(column)) return true
  const isDate = (cell: string) => looksLikeDate(cell) && /[-/.: ]/.test(cell)
  return mostCells(column, sample, (cell) => isDate(cell) && TIME_OF_DAY.test(cell)) || (TIME_NAMES.has(compact(column)) && mostCells(column, sample, isDate))
}

/** An empty column says nothing for anything. */
const mostCells = (column: string, sample: Sample, test: (cell: string) => boolean): boolean => sample.filled(column).length > 0 && sample.mostly(column, test)

/** What only a list of splices has: where one is understood, a ratio or a date beside it may well be a remark on the splice. */
const OF_A_LIST = new Set(['line_distance_m', 'fitting_type', 'installed_on', 'barrel_od_mm', 'barrel_length_mm', 'batch', 'removed_on', 'successor_of'])

/** Kinds of which every row has a moment and something measured of its own. */
const TIMED: readonly ImportKind[] = ['loads', 'extents']

export interface KindDoubt {
  /** Why the guess does not stand, in sentences. */
  why: string
  /** Whether the file is readings all the same, whose columns a person has to map; else its kind is asked for. */
  isReadings: boolean
}

/**
 * Why a guessed kind must not be taken: readings that are read as something else are lost without a word. Null where it may.
 * @param said columns that a person mapped
 * @param survey what the file was said to be a survey of; readings and extents alone are
 */
export function kindDoubt(guess: Mapping, rows: readonly RawRow[], said: ReadonlySet<string>, survey: string | null): KindDoubt | null {
  const { kind, columns } = guess
  const isCourse = kind === 'lines' && rows.some(({ geometry }) => geometry?.type === 'LineString' || geometry?.type === 'MultiLineString')
  if (kind === 'readings' || isCourse) return null
  const fields = new Set(columns.flatMap(({ field }) => field ?? []))
  const isList = kind === 'splices' && [...fields].some((field) => OF_A_LIST.has(field))
  const fits = KINDS[kind].fields.every(({ name, required }) => !required || fields.has(name)) && (kind !== 'splices' || isList)
  // Lines without a course are refused as what they are.
  if (kind === 'lines' && fits) return null
  const unread = columns.flatMap(({ column, field }) => (field === null && !said.has(column) ? [column] : []))
  const { sure, perhaps } = measuredColumns(unread, new Sample(columns.map(({ column }) => column), rows))
  const speaking = sure.length > 0 ? [...sure, ...perhaps] : isList || TIMED.includes(kind) ? [] : perhaps
  const takesSurvey = KINDS[kind].fields.some(({ name }) => name === 'survey')
  if (speaking.length === 0 && (survey === null || takesSurvey)) return null
  return {
    why: [
      ...speaking.length === 0 ? [] : [`${named(speaking)} ${speaking.length === 1 ? 'was' : 'were'} not understood and ${speaking.length === 1 ? 'speaks' : 'speak'} for readings.`],
      ...survey === null || takesSurvey ? [] : [`A survey is named, '${survey}', and ${KINDS[kind].label.toLowerCase()} have none.`],
    ].join(' '),
    isReadings: sure.length > 0 && !fits,
  }
}

const SHOWN = 6

function named(columns: readonly string[]): string {
  const names = columns.slice(0, SHOWN).map((column) => `'${shown(column)}'`)
  const rest = columns.length - names.length
  const all = rest > 0 ? [...names, `${rest} more`] : names
  return all.length === 1 ? `The column ${all[0]}` : `The columns ${all.slice(0, -1).join(', ')} and ${all.at(-1)}`
}
