import { describe, expect, it } from 'vitest'
import { reviewCause as contractCause } from '@/lib/contract/contract'
import { REVIEW_RULES, isSureTold, reviewCause, reviewCauseText, type PlacementReasonCode } from '@/lib/geo'

const because = (codes: PlacementReasonCode[], ...probabilities: number[]) =>
  reviewCause(codes.map((code) => ({ code })), probabilities.map((probability, n) => ({ circuitId: n, probability })))

describe('the cause of waiting', () => {
  it('is the governing reason, wherever it stands among the others', () => {
    expect(because(['phase-from-position', 'two-splices-in-reach', 'track-matched'])).toBe('several-splices')
    expect(because(['declared-contradicts-position', 'position-zero'])).toBe('no-position')
    expect(because(['declared-circuit', 'declared-unknown', 'track-offset'])).toBe('not-on-file')
    expect(because(['phase-missing', 'declared-circuit'])).toBe('phase-missing')
    expect(because(['nothing-in-reach'])).toBe('nothing-in-reach')
  })

  it('names a parallel circuit only where one is likelier than no line at all', () => {
    expect(because(['low-probability'], 0.66, 0.33)).toBe('several-circuits')
    expect(because(['low-probability'], 0.87)).toBe('off-the-line')
    expect(because(['low-probability'], 0.85, 0.01)).toBe('off-the-line')
    expect(reviewCause([{ code: 'low-probability' }], [{ circuitId: 4, probability: 0.6 }, { circuitId: 4, probability: 0.4 }])).toBe('off-the-line')
    expect(because(['shared-structures-no-offset'])).toBe('several-circuits')
  })

  it('tells how sure a candidate is everywhere but where equals share it out', () => {
    expect(contractCause.options.filter((cause) => !isSureTold(cause))).toEqual(['names-contradict', 'no-position'])
    expect(isSureTold(null)).toBe(true)
  })

  it('is none where nothing asks for a person', () => {
    expect(because(['declared-splice', 'track-matched'])).toBeUndefined()
    expect(because(['person-rejected'])).toBeUndefined()
  })

  it('has a short phrase each, and the words of the API', () => {
    const causes = [...new Set(REVIEW_RULES.map((rule) => rule.cause))]
    expect(causes.toSorted()).toEqual(contractCause.options.toSorted())
    for (const cause of causes) expect(reviewCauseText(cause).length).toBeLessThanOrEqual(32)
    expect(new Set(causes.map(reviewCauseText)).size).toBe(causes.length)
  })
})
