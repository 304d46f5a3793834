import { formatNumber } from '@/lib/units/format'
import type { FileNote } from '../outcome'
import { otherDateOrder, otherWord, otherZone } from '../report/remedies'
import type { DateOrder } from '../types'

/** What is assumed for row after row is told once per file, with its count and first row. */
export type AssumptionCode =
  | 'date-order' | 'zone' | 'midnight' | 'number-date' | 'kind-resistance' | 'kind-infrared' | 'kind-visual' | 'platform-position' | 'no-position'
  | 'accuracy-zero' | 'accuracy-by-platform' | 'splice-kind' | 'third-coordinate'

/** In which times without an offset are read: that of the mapping, or the utility's. */
export interface FileZone { name: string; isSaid: boolean }

interface Counted { count: number; firstRow: number; lastRow: number }

const FINE = 'Nothing needs to be done.'

export class Assumptions {
  private readonly counted = new Map<AssumptionCode, Counted>()
  private readonly said = new Map<string, Omit<Counted, 'lastRow'> & { remedy: string; isSaid: boolean }>()

  add(code: AssumptionCode, row: number): void {
    const known = this.counted.get(code)
    if (!known) this.counted.set(code, { count: 1, firstRow: row, lastRow: row })
    else {
      known.count++
      known.lastRow = row
    }
  }

  /** The same for a sentence of its own, without its full stop. */
  say(words: string, remedy: string, row: number, isSaid = false): void {
    const known = this.said.get(words)
    if (known) known.count++
    else this.said.set(words, { count: 1, firstRow: row, remedy, isSaid })
  }

  /** Whether it was assumed of this row, while the row is at hand. */
  isLast(code: AssumptionCode, row: number): boolean {
    return this.counted.get(code)?.lastRow === row
  }

  notes(order: DateOrder, { name, isSaid: isZoneSaid }: FileZone): FileNote[] {
    const zone = isZoneSaid ? name : `${name}, the utility's zone`
    const counted = [...this.counted].map(([code, rows]) => ({ text: sentence(code, order, zone), remedy: remedy(code, order), isSaid: code === 'zone' && isZoneSaid, ...rows }))
    const said = [...this.said].map(([text, rows]) => ({ text, ...rows }))
    return [...counted, ...said].map(({ text, remedy: what, count, firstRow, isSaid }) => (
      { message: `${text} (${formatNumber(count, 0)} ${count === 1 ? 'row' : 'rows'}, first row ${firstRow}).`, remedy: what, ...(isSaid && { isSaid }) }))
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

function remedy(code: AssumptionCode, order: DateOrder): string {
  switch (code) {
    case 'date-order': return otherDateOrder(order)
    case 'zone': return otherZone
    case 'midnight': return 'Nothing needs to be done where no time of day is known; otherwise write it in the file, undo this import and import the file again.'
    case 'number-date': return 'Nothing needs to be done where that is right; otherwise write dates as 2026-05-04, undo this import and import the file again.'
    case 'kind-resistance':
    case 'kind-infrared':
    case 'kind-visual': return otherWord('the kind of reading', 'kind', code === 'kind-visual' ? 'infrared' : 'visual')
    case 'platform-position': return otherWord('what the position belongs to', 'position_of', 'target')
    case 'no-position': return 'Nothing needs to be done where the rows name their structures; the others are placed by hand under Review.'
    case 'accuracy-by-platform': return 'Nothing needs to be done where that is right; otherwise give the file a column gnss_accuracy_m, undo this import and import the file again.'
    case 'splice-kind': return otherWord('the kind of fitting', 'kind', 'dead-end')
    case 'accuracy-zero':
    case 'third-coordinate': return FINE
  }
}
