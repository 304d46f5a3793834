import { describe, expect, it } from 'vitest'
import { statedLimit } from '@/lib/condition/loading/stated-limit'

const RATING_A = 900
const one = (splice: string, rank: number | null, figure = true, of: 'degraded' | 'urgent' | 'critical' = 'degraded') => ({ splice, rank, figure, class: of })

describe('what splices allow together', () => {
  it('is what the lowest figure says, beside a held splice that may be lower still', () => {
    const { by, mayBeLower } = statedLimit([one('held', 520, false, 'critical'), one('read', 706), one('milder', 800)], RATING_A)
    expect(by?.splice).toBe('read')
    expect(mayBeLower.map(({ splice }) => splice)).toEqual(['held'])
  })

  it('names a failing splice without a ratio always, and one without a figure only where it could lower the figure', () => {
    const { by, mayBeLower } = statedLimit([one('milder', 750, false), one('read', 706), one('blind', null, false, 'urgent')], RATING_A)
    expect(by?.splice).toBe('read')
    expect(mayBeLower.map(({ splice }) => splice)).toEqual(['blind'])
  })

  it('without a figure leaves those that limit, the worst first, and none where none does', () => {
    expect(statedLimit([one('milder', 500, false, 'urgent'), one('worse', 600, false, 'critical')], RATING_A)).toMatchObject({
      by: null, mayBeLower: [{ splice: 'worse' }, { splice: 'milder' }],
    })
    expect(statedLimit([one('read', 950), one('held', 901, false)], RATING_A)).toEqual({ by: null, mayBeLower: [] })
  })
})
