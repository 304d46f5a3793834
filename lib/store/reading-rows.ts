import type { ReadingRecord } from '@/lib/intake/reading'
import { BinaryRows } from './binary-rows'
import { copyTypes, sendBytes, type UnderWay } from './copy'
import { READING_COLUMNS } from './reading-columns'
import { mustCoverEverything, type Scope } from './scope'
import type { Tx } from './transaction'

type Key = keyof ReadingRecord
const KEYS = Object.entries(READING_COLUMNS) as [column: string, key: Key][]

/**
 * Readings as the bytes COPY takes, encoded as they come. A file fills few of the columns: only those that some reading has filled so far
 * are sent.
 */
export class ReadingRows {
  private columns: string[] = []
  private keys: Key[] = []
  private unfilled = KEYS
  private rows = new BinaryRows([])

  constructor(private readonly scope: Scope, private readonly importId: number, private readonly tx: Tx) {
    mustCoverEverything(scope)
  }

  get count(): number {
    return this.rows.count
  }

  /** Whether a reading has values for which the rows have no column yet: then these must be sent first. */
  isTooNarrowFor(record: ReadingRecord): boolean {
    for (const [, key] of this.unfilled) if (record[key] !== null) return true
    return false
  }

  /** Makes room for the columns that a reading fills. Only between sendings. */
  async widenFor(record: ReadingRecord): Promise<void> {
    const filled = KEYS.filter(([, key]) => record[key] !== null || this.keys.includes(key))
    this.keys = filled.map(([, key]) => key)
    this.unfilled = KEYS.filter(([, key]) => !this.keys.includes(key))
    this.columns = ['id', 'import_id', 'survey_id', ...filled.map(([column]) => column)]
    this.rows = new BinaryRows(await copyTypes(this.tx, 'reading', this.columns))
  }

  add(id: number, surveyId: number, record: ReadingRecord): void {
    const { rows, keys } = this
    rows.begin()
    rows.put(id)
    rows.put(this.importId)
    rows.put(surveyId)
    for (let i = 0; i < keys.length; i++) rows.put(record[keys[i]!])
  }

  /** Sends what was added. They must not be added to until it is done. */
  send(): Promise<UnderWay> {
    return sendBytes(this.tx, 'reading', this.columns, this.rows.view())
  }

  /** Ready for the next, with the columns that have been filled so far. */
  clear(): void {
    this.rows.clear()
  }
}
