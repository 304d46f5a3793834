import { recogniseUnit } from '@/lib/units/detect'
import { FileRefusal } from '../types'

const UNITLESS = new Set(
  ['', '-', '–', 'text', 'id', 'no', 'number', 'none', 'n/a', '%', 'yyyy-mm-dd', 'yyyy-mm-ddthh:mm:ss', 'hh:mm', 'hh:mm:ss', 'utc']
)

/** Longest spelling of a unit that is looked at. */
const MAX_UNIT_CHARS = 30

const bare = (cell: string): string => cell.trim().replace(/^[([{]\s*|\s*[)\]}]$/g, '')

/** Spellings that are no phase, number or remark: 'µΩ', '°F', 'm/s', and words of two letters and more beside others. */
const UNMISTAKABLE = /[µμΩ°/]/

/**
 * The units of a line under the header, by column; null where the line is data. It holds nothing but units, and either an
 * unmistakable one or two of which one is longer than a letter: a row of the phases A and C is a row.
 */
export function unitsRow(values: readonly string[]): string[] | null {
  if (values.some((value) => value.length > MAX_UNIT_CHARS)) return null
  const words = values.map(bare)
  const units = words.filter((word) => !UNITLESS.has(word.toLowerCase()))
  if (!units.every((word) => /[\p{L}°]/u.test(word) && recogniseUnit(word) !== null)) return null
  const sure = units.some((word) => UNMISTAKABLE.test(word)) || (units.length >= 2 && units.some((word) => word.length > 1))
  return sure ? words : null
}

/** Columns with names of their own: blank ones are numbered, repeated ones counted, units of the line below put in brackets. */
export function nameColumns(header: readonly string[], units: readonly string[] | null): { columns: string[]; notes: string[] } {
  refuseWithoutHeader(header)
  const notes = units ? ['The line under the header holds units.'] : []
  const names = new Set<string>()
  const next = new Map<string, number>()
  const repeated: string[] = []
  const columns = header.map((cell, at) => {
    const plain = cell.replace(/\s+/g, ' ').trim() || `column ${at + 1}`
    const unit = units?.[at] && recogniseUnit(units[at]) ? ` (${units[at]})` : ''
    let name = plain + unit
    if (names.has(name)) {
      repeated.push(name)
      let count = next.get(name) ?? 2
      while (names.has(`${name} (${count})`)) count++
      next.set(name, count + 1)
      name = `${name} (${count})`
    }
    names.add(name)
    return name
  })
  if (repeated.length > 0) notes.push(`Columns of the same name are counted: ${[...new Set(repeated)].slice(0, 5).join(', ')}.`)
  return { columns, notes }
}

const NUMBER = /^[+-]?\d+([.,]\d+)?$/

function refuseWithoutHeader(header: readonly string[]): void {
  const filled = header.map((cell) => cell.trim()).filter((cell) => cell !== '')
  const numbers = filled.filter((cell) => NUMBER.test(cell)).length
  if (filled.length === 0 || numbers <= filled.length / 2) return
  throw new FileRefusal(
    'no-header', `The first line holds numbers (${filled.slice(0, 3).join(', ')}), so the columns have no names.`,
    'Put the names of the columns in the first line; the template shows them.',
  )
}
