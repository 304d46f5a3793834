import type { RawRow, RowIssue, RowIterator } from '../types'

type Row = RawRow | RowIssue

/** Rows that come in batches, one by one. Left early, they close what the batches come from. */
export class FlatRows implements RowIterator {
  private batch: readonly Row[] = []
  private at = 0

  constructor(private readonly batches: AsyncGenerator<readonly Row[]>) {}

  [Symbol.asyncIterator](): this {
    return this
  }

  atHand(): Row | undefined {
    return this.at < this.batch.length ? this.batch[this.at++] : undefined
  }

  async next(): Promise<IteratorResult<Row>> {
    for (;;) {
      const value = this.atHand()
      if (value) return { done: false, value }
      const next = await this.batches.next()
      if (next.done) return { done: true, value: undefined }
      this.batch = next.value
      this.at = 0
    }
  }

  async return(): Promise<IteratorResult<Row>> {
    this.batch = []
    await this.batches.return(undefined)
    return { done: true, value: undefined }
  }
}
