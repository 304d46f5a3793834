import { describe, expect, it } from 'vitest'
import { durationText } from '@/components/splice/age'
import { dueOf, lastTold } from '@/components/splice/due'
import type { HistoryEntry } from '@/lib/contract/history'

const HOUR_MS = 3_600_000
const RAISED_MS = Date.parse('2026-03-15T08:00:00.000Z')
const of = { raised_at: '2026-03-15T08:00:00.000Z', last_reading_at: '2025-03-15T08:00:00.000Z' }
const due = (action: { code: string; withinHours?: number; withinDays?: number }, afterMs = 0) =>
  dueOf(action, of, 'America/Denver', RAISED_MS + afterMs)

describe('by when', () => {
  it('counts from when the class was raised: hours to the minute with their zone, days to the day', () => {
    expect(due({ code: 'confirm-reading', withinHours: 24 })).toEqual({ text: 'By 16 Mar 2026 02:00 MDT.', overdue: false })
    expect(due({ code: 'repair', withinDays: 7 })).toEqual({ text: 'By 22 Mar 2026.', overdue: false })
  })

  it('says by how much it is overdue once it has passed, and not a moment before', () => {
    const call = { code: 'call-control-room', withinHours: 1 }
    expect(due(call, HOUR_MS)).toEqual({ text: 'By 15 Mar 2026 03:00 MDT.', overdue: false })
    expect(due(call, HOUR_MS + 60_000)).toEqual({ text: 'Due 15 Mar 2026 03:00 MDT, overdue by 1 minute.', overdue: true })
    expect(due(call, 4 * HOUR_MS)?.text).toBe('Due 15 Mar 2026 03:00 MDT, overdue by 3 hours.')
    expect(due({ code: 'repair', withinDays: 7 }, 250 * 24 * HOUR_MS)?.text).toBe('Due 22 Mar 2026, overdue by 8 months.')
  })

  it('counts a survey that comes round again from the last reading', () => {
    expect(dueOf({ code: 'measure-again', withinDays: 730 }, of, 'America/Denver', RAISED_MS)?.text).toBe('By 15 Mar 2027.')
    expect(dueOf({ code: 'measure-again', withinDays: 730 }, { ...of, raised_at: null }, 'America/Denver', RAISED_MS)?.text).toBe('By 15 Mar 2027.')
  })

  it('leads with the time since it was found where that is over, and keeps the day that runs since it was entered', () => {
    const repair = { code: 'repair', withinDays: 30 }
    // Taken 75 days before it was entered: over its 30 days by 45 when it came in.
    const lain = { ...of, first_found_at: '2025-12-30T08:00:00.000Z', read_in_at: '2026-03-15T08:00:00.000Z' }
    expect(dueOf(repair, lain, 'UTC', RAISED_MS)).toEqual({
      text: 'Due 29 Jan 2026 by its finding, overdue by 45 days. Learned of here 15 Mar 2026: from then by 14 Apr 2026, no date agreed.', overdue: true,
    })
    expect(dueOf(repair, lain, 'UTC', RAISED_MS + 31 * 24 * HOUR_MS)?.text).toMatch(/^Due 29 Jan 2026 by its finding, overdue by 76 days\. Learned of here 15 Mar 2026: from then 14 Apr 2026, over too/)
    expect(dueOf(repair, { ...lain, first_found_at: '2026-03-14T08:00:00.000Z' }, 'UTC', RAISED_MS)?.text).toBe('By 13 Apr 2026.')
    // A degraded one alike: found in September, read in at the end of November.
    const degraded = { ...of, raised_at: '2026-11-30T08:00:00.000Z', first_found_at: '2026-09-17T08:00:00.000Z', read_in_at: '2026-11-30T08:00:00.000Z' }
    expect(dueOf({ code: 'repair-in-outage', withinDays: 365 }, degraded, 'UTC', Date.parse('2026-11-30T09:00:00.000Z'))?.text).toBe('By 17 Sep 2027.')
    expect(dueOf({ code: 'confirm-reading', withinHours: 24 }, lain, 'UTC', RAISED_MS)?.text).toBe('By 16 Mar 2026 08:00 UTC.')
  })

  it('is silent where policy sets no time, or nothing was raised', () => {
    expect(due({ code: 'record' })).toBeNull()
    expect(dueOf({ code: 'repair', withinHours: 1 }, { raised_at: null, last_reading_at: null }, 'UTC', RAISED_MS)).toBeNull()
  })
})

describe('a stretch of time', () => {
  it('is told in units that hide little: days for a quarter, months and years rounded', () => {
    const DAY = 24 * HOUR_MS
    const told = [0, 59_000, 119_000, 7_100_000, 36 * HOUR_MS, 60 * HOUR_MS, 59 * DAY, 70 * DAY, 100 * DAY, 730.5 * DAY, 2189 * DAY].map(durationText)
    expect(told).toEqual(['1 minute', '1 minute', '1 minute', '118 minutes', '36 hours', '2 days', '59 days', '70 days', '3 months', '2 years', '6 years'])
  })
})

describe('whether the control room was told', () => {
  const notice = (at: string, withdrawn = false): HistoryEntry =>
    ({ kind: 'notice', at, class: 'urgent', ratio: 2, basis: 'reading', reading_key: 'R', survey: 'S', withdrawn })
  const told = (at: string, withdrawn = false): HistoryEntry =>
    ({ kind: 'told', at, class: 'urgent', by: 'operator', reading_key: 'R', survey: 'S', withdrawn, told_to: null, told_at: null })

  it('is known by its last notice, and not while one waits', () => {
    expect(lastTold([told('2026-01-02T00:00:00Z'), notice('2026-01-01T00:00:00Z')])).toMatchObject({ at: '2026-01-02T00:00:00Z' })
    expect(lastTold([notice('2026-01-03T00:00:00Z'), told('2026-01-02T00:00:00Z'), notice('2026-01-01T00:00:00Z')])).toBeNull()
    expect(lastTold([])).toBeNull()
  })

  it('is not answered by what was told of a reading that was withdrawn', () => {
    const real = [told('2026-01-02T00:34:00Z'), notice('2026-01-02T00:30:00Z')]
    const gone = [told('2026-01-02T00:49:00Z', true), notice('2026-01-02T00:45:00Z', true)]
    expect(lastTold([...gone, ...real])).toMatchObject({ at: '2026-01-02T00:34:00Z' })
    expect(lastTold([notice('2026-01-02T00:45:00Z', true), ...real])).toMatchObject({ at: '2026-01-02T00:34:00Z' })
    expect(lastTold([...gone, notice('2026-01-02T00:30:00Z')])).toBeNull()
    expect(lastTold(gone)).toMatchObject({ at: '2026-01-02T00:49:00Z' }) // the class is held by it, and nothing else was called about
  })
})
