import { describe, expect, it } from 'vitest'
import { asked, bodyOf, proposal } from '@/components/splice/limit-steps'
import type { SpliceDetail } from '@/lib/contract/contract'

describe('proposing a limit', () => {
  const of = (lineA: number | null) => proposal({
    id: 1, outlook: (lineA === null ? { limit: null } : { limit: { line_a: lineA } }) as SpliceDetail['outlook'],
  }).questions

  it('shows the advised figure, rounded down, and takes a day of review', () => {
    const [current, , , , review] = of(706.8)
    expect(current).toMatchObject({ initial: '706' })
    expect(current?.hint).toMatch(/^Advised: 706 A\. Never above/)
    expect(review).toMatchObject({ name: 'review_by', day: true })
    expect(of(null)[0]).toMatchObject({ initial: '', hint: 'No figure is advised: ask the rating engineer. Never above the section’s rating.' })
  })

  it('asks why in a field of its own where it is above the advised figure, and nowhere else', () => {
    const questions = of(706.8)
    const names = (line_a: string) => asked(questions, { line_a }).map(({ name }) => name)
    expect(names('706')).not.toContain('above_advised_why')
    expect(names('707')).toEqual(['line_a', 'proposed_by', 'above_advised_why', 'reason', 'review_by'])
    expect(asked(questions, { line_a: '707' }).find(({ name }) => name === 'above_advised_why')?.label).toBe('Why more than the advised 706 A')
    expect(asked(of(null), { line_a: '900' }).map(({ name }) => name)).not.toContain('above_advised_why')
    const values = { line_a: '720', proposed_by: 'A. Miller', above_advised_why: 'Wind farm off until May', reason: 'Side B rose', review_by: '' }
    expect(bodyOf({ fixed: {}, questions }, values)).toEqual({
      line_a: 720, proposed_by: 'A. Miller', above_advised_why: 'Wind farm off until May', reason: 'Side B rose',
    })
    expect(bodyOf({ fixed: {}, questions }, { ...values, line_a: '700' })).toEqual({ line_a: 700, proposed_by: 'A. Miller', reason: 'Side B rose' })
  })
})
