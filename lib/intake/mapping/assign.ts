import { quantityOf } from '@/lib/units/convert'
import { headerUnit, splitCell } from '@/lib/units/detect'
import { editDistance } from '../cells/suggest'
import type { ColumnMapping, ImportKind } from '../types'
import { FIELD_NAMES, type FieldNames } from './field-names'
import { compact, headerNames } from './header-name'
import { looksLikeDate, looksLikeTime, looksNumeric, type Sample } from './sample'

type Basis = NonNullable<ColumnMapping['basis']>

export interface Assigned {
  names: FieldNames
  columns: string[]
  basis: Basis
  /** Worth of the match when kinds are weighed against each other. */
  weight: number
}

interface Header {
  column: string
  whole: string
  base: string
  bracketless: string
  /** With '#', 'Nbr', 'Num' and 'Nr' read as 'no': 'Test #' is 'Test no'. */
  numbered: string
}

type Match = (names: FieldNames, header: Header, sample: Sample) => boolean

/** Longer headers are remarks, and are left to the user. */
const MAX_HEADER_CHARS = 200

/** Shortest header in which one wrong letter is still believed. */
const FUZZY_CHARS = 6

const STEPS: readonly { basis: Basis; weight: number; matches: Match }[] = [
  { basis: 'template', weight: 3, matches: (names, { whole, bracketless }) => whole === names.template || bracketless === names.template },
  { basis: 'synonym', weight: 2, matches: calledSo },
  { basis: 'synonym', weight: 2, matches: besideUnit },
  { basis: 'synonym', weight: 0.5, matches: (names, { whole }) => names.weak.includes(whole) },
  { basis: 'synonym', weight: 1, matches: nearly },
]

/** 'From structure (ft)' is a length, although 'from structure' is a name. */
function calledSo({ synonyms, quantity }: FieldNames, { column, whole, bracketless, numbered }: Header): boolean {
  if (synonyms.has(whole) || synonyms.has(numbered)) return true
  return synonyms.has(bracketless) && (quantity !== null || headerUnit(column, 'length') === null)
}

/** Short names such as 'A' mean a side only beside a unit, in the header or in most cells. */
function besideUnit({ quantity, bases }: FieldNames, { column, base, whole }: Header, sample: Sample): boolean {
  if (quantity === null) return false
  const named = headerUnit(column, quantity)
  if (named) return bases.has(compact(named.rest)) || bases.has(base)
  if (!bases.has(whole) || sample.filled(column).length === 0) return false
  return sample.mostly(column, (cell) => {
    const unit = splitCell(cell)?.unit
    return unit !== undefined && unit !== null && quantityOf(unit) === quantity
  })
}

/** One wrong, missing or surplus letter; a plural counts as another word ('circuits' is a number, 'circuit' a name). */
function nearly(names: FieldNames, { whole }: Header): boolean {
  if (whole.length < FUZZY_CHARS) return false
  // One letter parts 'mohm' from 'uohm', so names with their unit are not guessed at.
  for (const name of names.quantity === null ? [names.template, ...names.synonyms] : names.synonyms) {
    if (name.length >= FUZZY_CHARS && name !== `${whole}s` && whole !== `${name}s` && editDistance(whole, name, 1) === 1) return true
  }
  return false
}

/** A column whose cells contradict the field is no candidate for it, unless it bears the template's own name. */
function plausible(names: FieldNames, column: string, sample: Sample): boolean {
  switch (names.field.type) {
    case 'number':
    case 'integer':
    case 'longitude':
    case 'latitude': return sample.mostly(column, looksNumeric)
    case 'instant': return sample.mostly(column, (cell) => looksLikeDate(cell) || looksLikeTime(cell))
    case 'day': return sample.mostly(column, (cell) => looksLikeDate(cell) || /^\d{4}$/.test(cell))
    default: return true
  }
}

/**
 * Which column holds which field: the template's names first, then what others call it, then one wrong letter.
 * Two columns that are equally good leave the field open: a wrong guess is worse than none.
 */
export function assignColumns(kind: ImportKind, columns: readonly string[], sample: Sample): Assigned[] {
  const assigned: Assigned[] = []
  const short = columns.filter((column) => column.length <= MAX_HEADER_CHARS)
  const free = new Map(short.map((column) => [column, { column, ...headerNames(column) }] as const))
  const open = new Set(FIELD_NAMES[kind])
  for (const minimumFill of [0.5, 0]) {
    for (const { basis, weight, matches } of STEPS) {
      for (const names of [...open]) {
        const enough = (column: string): boolean => !names.field.required || sample.fillShare(column) >= minimumFill
        const found = [...free.values()].filter((header) =>
          matches(names, header, sample) && enough(header.column) && (basis === 'template' || plausible(names, header.column, sample)))
        if (found.length === 0 || (matches === nearly && claimedTwice(found, open))) continue
        open.delete(names)
        const chosen = choose(names, found, weight, sample)
        for (const column of chosen) free.delete(column)
        if (chosen.length > 0) assigned.push({ names, columns: chosen, basis, weight })
      }
    }
  }
  return assigned
}

const claimedTwice = (found: readonly Header[], open: ReadonlySet<FieldNames>): boolean =>
  found.some((header) => [...open].filter((names) => nearly(names, header)).length > 1)

function choose(names: FieldNames, found: readonly Header[], weight: number, sample: Sample): string[] {
  const columns = found.map((header) => header.column)
  if (columns.length === 1) return columns
  if (weight === 0.5) {
    const best = [...found].sort((a, b) => names.weak.indexOf(a.whole) - names.weak.indexOf(b.whole))[0]!
    return found.filter((header) => header.whole === best.whole).length === 1 ? [best.column] : []
  }
  return names.field.type === 'instant' ? dateAndTime(columns, sample) : []
}

/** A date and a time of day in two columns make one moment. */
function dateAndTime(columns: readonly string[], sample: Sample): string[] {
  if (columns.length !== 2) return []
  const times = columns.filter((column) => sample.filled(column).length > 0 && sample.mostly(column, looksLikeTime))
  return times.length === 1 ? [...columns] : []
}
