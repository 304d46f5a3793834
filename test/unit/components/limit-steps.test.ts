import { describe, expect, it } from 'vitest'
import { proposal } from '@/components/splice/limit-steps'
import type { SpliceDetail } from '@/lib/contract/contract'

describe('proposing a limit', () => {
  const of = (lineA: number | null) => proposal({
    id: 1, outlook: (lineA === null ? { limit: null } : { limit: { line_a: lineA } }) as SpliceDetail['outlook'],
  }).questions

  it('shows the advised figure, rounded down, asks why above it, and takes a day of review', () => {
    const [current, , reason, review] = of(706.8)
    expect(current).toMatchObject({ initial: '706' })
    expect(current?.hint).toMatch(/^Advised: 706 A\. Above it, say why\./)
    expect(reason?.hint).toContain('more than the advised figure')
    expect(review).toMatchObject({ name: 'review_by', day: true })
    expect(of(null)[0]).toMatchObject({ initial: '', hint: 'No figure is advised: ask the rating engineer. Never above the section’s rating.' })
  })
})
