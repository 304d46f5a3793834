import { describe, expect, it } from 'vitest'
import { askedText, classThen, groupedBySplice } from '@/components/calls/words'

const NOW = Date.parse('2026-11-30T18:00:00Z')
const READ = '2026-10-08T15:00:00.000Z'
const asked = (more: Partial<Parameters<typeof askedText>[0]>) =>
  askedText({ last_call_at: null, last_told_at: null, last_look_at: READ, last_reading_at: READ, ...more }, NOW, 'UTC')

describe('what is to be looked at again', () => {
  it('says who knows of it and since what nobody was there, so that a call told today is never read as none', () => {
    expect(asked({ last_told_at: '2026-11-30T13:42:00.000Z' })).toBe('control room told 13:42 UTC; not looked at since the reading of 8 Oct 2026')
    expect(asked({ last_told_at: '2026-11-29T13:42:00.000Z', last_call_at: '2026-11-30T10:05:00.000Z' })).toBe('called 10:05 UTC; not looked at since the reading of 8 Oct 2026')
    expect(asked({ last_look_at: '2026-11-20T10:00:00.000Z' })).toBe('no call noted; not looked at since the look of 20 Nov 2026')
    expect(asked({ last_look_at: null, last_reading_at: null })).toBe('no call noted; never looked at')
  })
})

describe('the log of calls', () => {
  it('says of a class that it was so at the time of the call, where it is shown as another one now', () => {
    expect(classThen({ class: 'urgent', class_now: 'urgent', kind: 'told' })).toBe('urgent')
    expect(classThen({ class: 'urgent', class_now: 'critical', kind: 'told' })).toBe('urgent at the time of the call')
    expect(classThen({ class: 'urgent', class_now: null, kind: 'call' })).toBe('urgent')
  })

  it('keeps together what was noted of one splice on a day, and those without a place apart', () => {
    const day = [1, 2, 1, null, null, 2].map((splice_id, i) => ({ splice_id, i }))
    expect(groupedBySplice(day).map(({ entry: { i }, repeats }) => `${i}${repeats ? ' again' : ''}`)).toEqual(['0', '2 again', '1', '5 again', '3', '4'])
  })
})
