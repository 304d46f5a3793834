import type { BinaryRows } from './binary-rows'
import { openCopy } from './copy'
import type { Tx } from './transaction'

/** Rows of some columns, ready to go. */
export interface Block { columns: readonly string[]; rows: BinaryRows }

/** A COPY ends after so many rows, so that the database checks what they point at while the next ones are worked out. */
const ROWS_PER_COPY = 10_000
/** Who fills blocks waits where this much is still to go. */
const MOST_BYTES = 4 << 20

/**
 * Keeps a COPY into one table going while blocks of rows are filled: neither waits for the other unless it falls far behind. Questions on the
 * same transaction have to wait for `flush`.
 */
export class CopyPump {
  private readonly waiting: Block[] = []
  private bytes = 0
  private isEnding = false
  private running: Promise<void> | null = null
  private failure: Error | null = null
  private wakePump = (): void => undefined
  private wakeFiller = (): void => undefined

  /** `give` takes a block back once its bytes are gone. */
  constructor(private readonly tx: Tx, private readonly table: string, private readonly give: (block: Block) => void) {}

  /** Resolves at once unless the database is far behind. */
  async push(block: Block): Promise<void> {
    this.waiting.push(block)
    this.bytes += block.rows.length
    this.wakePump()
    this.running ??= this.run()
    while (this.bytes > MOST_BYTES && !this.failure) await new Promise<void>((resolve) => { this.wakeFiller = resolve })
    if (this.failure) throw this.failure
  }

  /** Everything pushed so far is in the table, and the connection is free. */
  async flush(): Promise<void> {
    this.isEnding = true
    this.wakePump()
    await this.running
    this.isEnding = false
    if (this.failure) throw this.failure
  }

  /** Gives up what is under way, so that the transaction can be rolled back. */
  async breakOff(): Promise<void> {
    this.failure ??= new Error('The rows were given up.')
    this.wakePump()
    await this.running
  }

  private async run(): Promise<void> {
    try {
      while (this.waiting.length > 0 && !this.failure) await this.tx.alone(() => this.copy())
    } catch (e) {
      this.failure ??= e instanceof Error ? e : new Error(String(e))
    } finally {
      this.running = null
      this.wakeFiller()
    }
  }

  private async copy(): Promise<void> {
    const columns = this.waiting[0]?.columns ?? []
    const copy = openCopy(this.tx, this.table, columns)
    for (let rows = 0; rows < ROWS_PER_COPY;) {
      if (this.failure) return copy.breakOff()
      const block = this.waiting[0]
      if (!block && this.isEnding) break
      if (!block) {
        await new Promise<void>((resolve) => { this.wakePump = resolve })
        continue
      }
      if (block.columns !== columns) break
      this.waiting.shift()
      rows += block.rows.count
      await copy.write(block.rows.taken())
      this.bytes -= block.rows.length
      this.give(block)
      this.wakeFiller()
    }
    await copy.end()
  }
}
