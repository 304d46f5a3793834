import { describe, expect, it } from 'vitest'
import { reasonText } from '@/lib/geo'
import { withFullStop } from '@/lib/units/full-stop'

describe('a sentence with words of somebody else in it', () => {
  it.each([['Wrong tower', 'Wrong tower.'], ['Wrong tower. ', 'Wrong tower.'], ['Which tower?', 'Which tower?'], ['not whole…', 'not whole…']])('%j ends as %j', (text, whole) => {
    expect(withFullStop(text)).toBe(whole)
  })

  it('has one full stop where they have theirs', () => {
    expect(reasonText({ code: 'person-rejected', values: { reason: 'Duplicate of R-12.' } }, String)).toBe('Set aside by a person: Duplicate of R-12.')
  })
})
