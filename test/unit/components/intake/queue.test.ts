import { describe, expect, it } from 'vitest'
import { without } from '@/components/intake/review/use-queue'
import type { ReviewItem } from '@/lib/contract/contract'
import { reading } from '@/test/fixtures/components/samples'

const item = (id: number, over: Partial<ReviewItem> = {}): ReviewItem => ({
  reading: reading({ id }), cause: 'phase-missing', candidates: [], urgent: false, notice: null, ...over,
})
const pages = (...items: ReviewItem[]) => ({
  pageParams: [''],
  pages: [{
    items, next_cursor: null, total: items.length,
    causes: [{ cause: 'phase-missing' as const, count: 2, urgent: 1 }, { cause: 'no-position' as const, count: 1, urgent: 0 }],
  }],
})

describe('a queue without the reading that was decided', () => {
  it('counts one less, also of its cause and of the urgent', () => {
    const [page] = without(pages(item(1, { urgent: true }), item(2), item(3, { cause: 'no-position' })), item(1, { urgent: true })).pages
    expect(page?.items.map((i) => i.reading.id)).toEqual([2, 3])
    expect(page).toMatchObject({ total: 2, causes: [{ cause: 'phase-missing', count: 1, urgent: 0 }, { cause: 'no-position', count: 1 }] })
  })

  it('drops a cause that nothing waits for any more, and leaves alone what does not hold the reading', () => {
    const held = pages(item(1), item(2), item(3, { cause: 'no-position' }))
    expect(without(held, item(3, { cause: 'no-position' })).pages[0]?.causes).toEqual([{ cause: 'phase-missing', count: 2, urgent: 1 }])
    expect(without(held, item(9))).toBe(held)
  })
})
