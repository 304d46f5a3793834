import { recogniseUnit } from '@/lib/units/detect'
import { FileRefusal } from '../types'

const UNITLESS = new Set(
  ['', '-', '–', 'text', 'id', 'no', 'number', 'none', 'n/a', '%', 'yyyy-mm-dd', 'yyyy-mm-ddthh:mm:ss', 'hh:mm', 'hh:mm:ss', 'utc']
)

const bare = (cell: string): string => cell.trim().replace(/^[([{]\s*|\s*[)\]}]$/g, '')

/** The units of a line under the header, by column; null where the line is data: at least two units, and nothing that is none. */
export function unitsRow(values: readonly string[]): string[] | null {
  let units = 0
  for (const value of values) {
    const word = bare(value)
    if (UNITLESS.has(word.toLowerCase())) continue
    if (recogniseUnit(word) === null) return null
    units++
  }
  return units >= 2 || (units === 1 && values.length <= 3) ? values.map((value) => bare(value)) : null
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
