import type { DateOrder } from '../types'

/** What is assumed for row after row is told once per file, with its count and first row. */
export type AssumptionCode =
  | 'date-order' | 'zone' | 'midnight' | 'number-date' | 'kind-resistance' | 'kind-infrared' | 'kind-visual' | 'platform-position' | 'no-position'
  | 'accuracy-zero' | 'accuracy-by-platform' | 'splice-kind' | 'third-coordinate'

interface Counted { count: number; firstRow: number }

export class Assumptions {
  private readonly counted = new Map<AssumptionCode, Counted>()
  private readonly said = new Map<string, Counted>()

  add(code: AssumptionCode, row: number): void {
    const known = this.counted.get(code)
    if (known) known.count++
    else this.counted.set(code, { count: 1, firstRow: row })
  }

  /** The same for a sentence of its own, without its full stop. */
  say(words: string, row: number): void {
    const known = this.said.get(words)
    if (known) known.count++
    else this.said.set(words, { count: 1, firstRow: row })
  }

  has(code: AssumptionCode): boolean {
    return this.counted.has(code)
  }

  /** `zone` as it is to be named: 'America/Denver, the utility's zone'. */
  sentences(order: DateOrder, zone: string): string[] {
    const words = [...this.counted].map(([code, counted]): [string, Counted] => [sentence(code, order, zone), counted])
    return [...words, ...this.said].map(
      ([text, { count, firstRow }]) => `${text} (${count} ${count === 1 ? 'row' : 'rows'}, first row ${firstRow}).`
    )
  }
}

function sentence(code: AssumptionCode, order: DateOrder, zone: string): string {
  switch (code) {
    case 'date-order': return 'Nothing in the file tells whether days or months come first; '
      + `${order === 'mdy' ? 'the month' : 'the day'} was taken to come first: check the dates`
    case 'zone': return `Times without an offset were read as ${zone}`
    case 'midnight': return `A date without a time was taken as midnight in ${zone}`
    case 'number-date': return 'A plain number was taken as a date of a spreadsheet or a Unix time'
    case 'kind-resistance': return 'Rows without a kind that hold a resistance were taken as resistance readings'
    case 'kind-infrared': return 'Rows without a kind that hold a splice temperature were taken as infrared readings'
    case 'kind-visual': return 'Rows without a kind that hold findings were taken as visual readings'
    case 'platform-position': return 'Nothing says whether the position is the splice\'s or the aircraft\'s; it was taken as the aircraft\'s, beside the line'
    case 'no-position': return 'No position is given, so these rows are placed by what they declare, or go to review'
    case 'accuracy-zero': return 'An accuracy of zero was taken as not known'
    case 'accuracy-by-platform': return 'No accuracy is given; that of the platform was taken'
    case 'splice-kind': return 'No kind of fitting was given; a full-tension splice was taken'
    case 'third-coordinate': return 'Heights and further coordinates were left out'
  }
}
