import type { ReadingRecord } from '@/lib/intake/reading'
import { BinaryRows } from './binary-rows'
import { copyTypes } from './copy'
import { CopyPump, type Block } from './copy-pump'
import { reserveIdsInARow } from './ids'
import { READING_COLUMNS } from './reading-columns'
import { mustCoverEverything, type Scope } from './scope'
import { database, type Tx } from './transaction'

type Key = keyof ReadingRecord
const KEYS = Object.entries(READING_COLUMNS) as [column: string, key: Key][]

/** So many rows make a block. */
const BLOCK_ROWS = 400
/** Ids are taken in blocks of so many. */
const IDS = 10_000

/**
 * Writes readings of one import by COPY while they are parsed: they are encoded as they come and go on their way in blocks. A file fills few
 * of the columns: only those that some reading has filled so far are sent.
 */
export class ReadingRows {
  private columns: readonly string[] = []
  private keys: Key[] = []
  private unfilled = KEYS
  private block: Block | null = null
  private free: Block[] = []
  private nextId = 0
  private endId = 0
  private readonly pump: CopyPump

  constructor(private readonly scope: Scope, private readonly importId: number, private readonly tx: Tx) {
    mustCoverEverything(scope)
    this.pump = new CopyPump(tx, 'reading', (block) => this.takeBack(block))
  }

  /** The reading's id; null where there is no room: then `makeRoom` first. */
  add(surveyId: number, record: ReadingRecord): number | null {
    const rows = this.block?.rows
    if (!rows || rows.count === BLOCK_ROWS || this.nextId === this.endId || this.isTooNarrowFor(record)) return null
    const id = this.nextId++
    rows.begin()
    rows.put(id)
    rows.put(this.importId)
    rows.put(surveyId)
    const { keys } = this
    for (let i = 0; i < keys.length; i++) rows.put(record[keys[i]!])
    return id
  }

  /** Sends what there is on its way and makes room for a reading like this one. */
  async makeRoom(record: ReadingRecord): Promise<void> {
    await this.sendBlock()
    if (this.isTooNarrowFor(record)) await this.widenFor(record)
    if (this.nextId === this.endId) {
      // Beside the transaction, whose connection is busy: numbers are not taken back anyway.
      this.nextId = await reserveIdsInARow(this.scope, database(), 'reading', IDS)
      this.endId = this.nextId + IDS
    }
    this.block ??= this.free.pop() ?? { columns: this.columns, rows: new BinaryRows(await copyTypes(this.tx, 'reading', this.columns), 1 << 18) }
  }

  /** Everything added so far is stored, and the transaction can be asked again. */
  async flush(): Promise<void> {
    await this.sendBlock()
    await this.pump.flush()
  }

  /** Gives up, so that the transaction can be rolled back. */
  breakOff(): Promise<void> {
    return this.pump.breakOff()
  }

  private async sendBlock(): Promise<void> {
    const { block } = this
    this.block = null
    if (block && block.rows.count > 0) await this.pump.push(block)
    else if (block) this.free.push(block)
  }

  private takeBack(block: Block): void {
    block.rows.clear()
    if (block.columns === this.columns) this.free.push(block)
  }

  private isTooNarrowFor(record: ReadingRecord): boolean {
    for (const [, key] of this.unfilled) if (record[key] !== null) return true
    return false
  }

  private async widenFor(record: ReadingRecord): Promise<void> {
    await this.pump.flush()
    const filled = KEYS.filter(([, key]) => record[key] !== null || this.keys.includes(key))
    this.keys = filled.map(([, key]) => key)
    this.unfilled = KEYS.filter(([, key]) => !this.keys.includes(key))
    this.columns = ['id', 'import_id', 'survey_id', ...filled.map(([column]) => column)]
    this.free = []
    await copyTypes(this.tx, 'reading', this.columns)
  }
}
