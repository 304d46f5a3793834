import { describe, expect, it } from 'vitest'
import { peakPeriodsAt, type PeakPeriod } from '@/lib/condition/peak-periods'
import { ZoneClock } from '@/lib/intake/cells/zone'

// Moments are worked out by hand from the offsets of the IANA time zone database: Denver is UTC-7 in winter, UTC-6 from 8 March to 1 November 2026.
const AFTERNOON: PeakPeriod[] = [{ from: '14:00', to: '20:00' }]
const at = (iso: string, periods = AFTERNOON, zone = 'America/Denver') => {
  const clock = new ZoneClock(zone)
  const { current, next } = peakPeriodsAt(periods, (wallMs) => clock.toUtc(wallMs).atMs, Date.parse(iso))
  const text = (ms: number | undefined) => (ms === undefined ? null : new Date(ms).toISOString().slice(0, 16))
  return { current: current && [text(current.startMs), text(current.endMs)], next: next && [text(next.startMs), text(next.endMs)] }
}

describe('the peak-load period of a moment', () => {
  it('is by the clock of the utility, in winter and in summer', () => {
    expect(at('2026-01-15T22:00:00Z')).toEqual({ current: ['2026-01-15T21:00', '2026-01-16T03:00'], next: ['2026-01-16T21:00', '2026-01-17T03:00'] })
    expect(at('2026-07-15T20:30:00Z').current).toEqual(['2026-07-15T20:00', '2026-07-16T02:00'])
  })

  it('begins with its first minute and ends before its last', () => {
    expect(at('2026-01-15T21:00:00Z').current).not.toBeNull()
    expect(at('2026-01-15T20:59:59Z')).toEqual({ current: null, next: ['2026-01-15T21:00', '2026-01-16T03:00'] })
    expect(at('2026-01-16T03:00:00Z').current).toBeNull()
  })

  it('runs over midnight where it ends at or before it begins', () => {
    const night: PeakPeriod[] = [{ from: '22:00', to: '06:00' }]
    expect(at('2026-01-15T08:00:00Z', night)).toEqual({ current: ['2026-01-15T05:00', '2026-01-15T13:00'], next: ['2026-01-16T05:00', '2026-01-16T13:00'] })
  })

  it('is as long as the clock says on the night that clocks go forward: one hour less', () => {
    expect(at('2026-03-08T08:00:00Z', [{ from: '22:00', to: '06:00' }]).current).toEqual(['2026-03-08T05:00', '2026-03-08T12:00'])
  })

  it('is of several the one that began last, and none where none is set', () => {
    const twice: PeakPeriod[] = [{ from: '06:00', to: '12:00' }, { from: '11:00', to: '20:00' }]
    expect(at('2026-01-15T18:30:00Z', twice).current).toEqual(['2026-01-15T18:00', '2026-01-16T03:00'])
    expect(at('2026-01-15T18:30:00Z', [])).toEqual({ current: null, next: null })
  })

  it('is also right furthest from Greenwich, where the day is another one', () => {
    // Kiritimati is UTC+14 all year.
    expect(at('2026-01-15T01:00:00Z', AFTERNOON, 'Pacific/Kiritimati').current).toEqual(['2026-01-15T00:00', '2026-01-15T06:00'])
  })
})
