import { splitCell } from '@/lib/units/detect'
import { dateOrderEvidence } from '../cells/calendar'
import { plainNumber } from '../cells/number'
import type { DateOrder, Mapping, RawRow } from '../types'

const MAX_CELL_CHARS = 200

/** The first rows by column, to ask what a column holds. */
export class Sample {
  private readonly cells: Map<string, string[]>
  readonly rowCount: number

  constructor(columns: readonly string[], rows: readonly RawRow[]) {
    this.rowCount = rows.length
    const all = rows.map((row) => row.cells)
    this.cells = new Map(columns.map((column) => [
      column, all.map((cells) => (cells[column] ?? '').trim()).filter((cell) => cell !== '' && cell.length <= MAX_CELL_CHARS),
    ]))
  }

  filled(column: string): readonly string[] {
    return this.cells.get(column) ?? []
  }

  /** Share of rows that fill the column; 1 where there are no rows to tell. */
  fillShare(column: string): number {
    return this.rowCount === 0 ? 1 : this.filled(column).length / this.rowCount
  }

  /** At least half of what is filled passes; an empty column passes, because it says nothing against. */
  mostly(column: string, test: (cell: string) => boolean): boolean {
    const cells = this.filled(column)
    return cells.length === 0 || cells.filter(test).length * 2 >= cells.length
  }
}

export const looksNumeric = (cell: string): boolean =>
  !Number.isNaN(plainNumber(cell)) || (cell.length <= 64 && (splitCell(cell) !== null || /^[#=@+-]/.test(cell) || /\d\s*°/.test(cell)))

export const looksLikeTime = (cell: string): boolean => /^\d{1,2}:\d{2}/.test(cell)
export const looksLikeDate = (cell: string): boolean =>
  /\d[-/.]\d|\d[\s.-]*(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)|(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)\w*\s+\d|^\d{5,14}/i.test(cell)

/** True where the numbers of these cells are written with a decimal comma, false with a point; undefined where they are neither or both. */
export function decimalCommaOf(cells: Iterable<string>): boolean | undefined {
  const { commas, points } = decimalMarks(cells)
  return commas > 0 === points > 0 ? undefined : commas > 0
}

/** Cells that can only be decimals, by their mark. */
function decimalMarks(cells: Iterable<string>): { commas: number; points: number } {
  let commas = 0
  let points = 0
  for (const cell of cells) {
    if (/^-?\d+,\d+$/.test(cell) && !/^-?[1-9]\d{0,2},\d{3}$/.test(cell)) commas++
    else if (/^-?\d*\.\d+$/.test(cell)) points++
  }
  return { commas, points }
}

/**
 * The same column by column, for a file that writes both: its receiver with a point and its crews with a comma. A column that
 * holds both goes by what most of its cells say, and by the point where they are as many. It stands in the mapping, because the
 * rejected rows of such a column do not tell by themselves how the others were written.
 */
export function withMarksByColumn(mapping: Mapping, columns: readonly string[], rows: readonly RawRow[]): Mapping {
  const sample = mapping.decimalComma === undefined ? new Sample(columns, rows) : null
  return {
    ...mapping,
    columns: mapping.columns.map(({ decimalComma: _, ...column }) => {
      const { commas, points } = decimalMarks(sample?.filled(column.column) ?? [])
      return commas + points === 0 ? column : { ...column, decimalComma: commas > points }
    }),
  }
}

/** Order of day and month that these cells prove; undefined where none proves it, or they contradict each other. */
export function dateOrderOf(cells: Iterable<string>): DateOrder | undefined {
  const found = new Set<DateOrder>()
  for (const cell of cells) {
    const evidence = dateOrderEvidence(cell)
    if (evidence === 'mdy' || evidence === 'dmy') found.add(evidence)
  }
  return found.size === 1 ? [...found][0] : undefined
}
