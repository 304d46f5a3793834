import type { Field } from '../kinds/field'
import { placeWords } from '../report/place'
import type { RowIssue } from '../types'

/** Longest value that a sentence repeats. */
const SHOWN_CHARS = 60

export const shown = (text: string): string => {
  const plain = text.replace(/\s+/g, ' ').trim()
  return plain.length > SHOWN_CHARS ? `${plain.slice(0, SHOWN_CHARS)}…` : plain
}

/** A number that is out of the bounds of its field, and what it would be in the unit that it looks like. */
export interface OutOfBounds { value: number; likely: { value: number; word: string } | null }

/** Collects what is wrong with the cells of one row. One object serves a whole file, because most rows have nothing to say. */
export class CellReport {
  row = 0
  line: number | undefined
  issues: RowIssue[] = []
  rejected = false
  /** Numbers of this row that were not taken for being out of bounds, by field. */
  readonly outside = new Map<string, OutOfBounds>()
  private field: Field | null = null
  private column = ''

  startRow(row: number, line?: number): void {
    this.row = row
    this.line = line
    this.issues = []
    this.rejected = false
    if (this.outside.size > 0) this.outside.clear()
  }

  startCell(field: Field, column: string): void {
    this.field = field
    this.column = column
  }

  /** The cell cannot be used: its row is rejected, or it alone is left out where the field says so. */
  refuse(code: string, value: string, message: string, remedy: string): undefined {
    const field = this.field
    if (field?.ifBad === 'leave-out') return this.leaveOut(field, code, value, message, remedy)
    this.add('error', code, value, message, remedy)
    return undefined
  }

  /** What `refuseBounds` refuses is kept: it may be too high to wait, whatever its unit. */
  keepOutside(number: OutOfBounds): void {
    if (this.field) this.outside.set(this.field.name, number)
  }

  /** The cell holds a number that cannot be. */
  refuseBounds(code: string, value: string, message: string, remedy: string): undefined {
    if (this.field?.ifOutOfBounds !== 'leave-out') return this.refuse(code, value, message, remedy)
    return this.leaveOut(this.field, code, value, message, remedy)
  }

  /** Whether anything was said of a field of this row. */
  speaksOf(field: string): boolean {
    return this.issues.some((issue) => issue.field === field)
  }

  warn(code: string, value: string, message: string, remedy: string): void {
    this.add('warning', code, value, message, remedy)
  }

  /** About a field that no single cell stands for. */
  about(
    severity: RowIssue['severity'], field: Field | string | null, code: string, value: string | undefined, message: string, remedy: string
  ): void {
    const name = typeof field === 'string' ? field : field?.name
    if (severity === 'error') this.rejected = true
    this.issues.push({
      severity, ...this.where(), ...(name && { field: name }), ...(value !== undefined && { value: shown(value) }), code,
      message: `${placeWords(this.row, this.line)}${name ? `, ${name}` : ''}: ${message}`, remedy,
    })
  }

  private leaveOut(field: Field, code: string, value: string, message: string, remedy: string): undefined {
    this.add('warning', code, value, `${message} ${field.leftOut ?? 'It is left out.'}`, remedy)
    return undefined
  }

  private add(severity: RowIssue['severity'], code: string, value: string, message: string, remedy: string): void {
    const name = this.field?.name ?? this.column
    const label = this.column === name ? name : `${name} (column '${shown(this.column)}')`
    if (severity === 'error') this.rejected = true
    this.issues.push({
      severity, ...this.where(), field: name, value: shown(value), code,
      message: `${placeWords(this.row, this.line)}, ${label}: '${shown(value)}' ${message}`, remedy,
    })
  }

  private where(): { row: number; line?: number } {
    return this.line === undefined ? { row: this.row } : { row: this.row, line: this.line }
  }
}

/** A cell's text as a value; undefined where it cannot be used (and the report knows why), null where it says nothing. */
export type ReadCell = (text: string, report: CellReport) => unknown
