/** Where in a file something is: 'File' for the whole of it, 'Row 12', or 'Row 12, line 15' where the file has lines. */
export const placeWords = (row: number, line?: number | null): string =>
  row === 0 ? 'File' : line === undefined || line === null ? `Row ${row}` : `Row ${row}, line ${line}`

/** A sentence on a row with its place before it; one that names its place already stays as it is. */
export function withPlace(message: string, row: number, line?: number | null, field?: string | null): string {
  if (/^(File|Row \d+|Feature \d+)\b/.test(message)) return message
  return `${placeWords(row, line)}${field ? `, ${field}` : ''}: ${message}`
}

/** The line on which each row begins. Only rows after which the distance of the two changes take memory. */
export class RowLines {
  private readonly rows: number[] = []
  private readonly ahead: number[] = []
  private lastAhead = Number.NaN

  /** Rows come in their order. */
  add(row: number, line: number): void {
    if (line - row === this.lastAhead) return
    this.lastAhead = line - row
    this.rows.push(row)
    this.ahead.push(this.lastAhead)
  }

  lineOf(row: number): number | undefined {
    let from = 0
    let to = this.rows.length
    while (from < to) {
      const middle = (from + to) >>> 1
      if (this.rows[middle]! <= row) from = middle + 1
      else to = middle
    }
    return row < 1 || from === 0 ? undefined : row + this.ahead[from - 1]!
  }
}
