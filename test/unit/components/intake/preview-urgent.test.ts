import { describe, expect, it } from 'vitest'
import { seenText } from '@/components/intake/preview-urgent'

describe('what is urgent in a preview', () => {
  it('is not on Operations before the import, but for rows that are stored already', () => {
    expect(seenText(2, 0)).toBe('Nothing is imported yet, so operations does not see it.')
    expect(seenText(1, 1)).toBe('All of it is stored already and announced on Operations, where it says whether the control room was told.')
    expect(seenText(3, 2)).toMatch(/^2 of 3 are stored already.* Operations does not see the rest before the import\.$/)
  })
})
