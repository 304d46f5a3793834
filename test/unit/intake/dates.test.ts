import { describe, expect, it } from 'vitest'
import { dateOrderEvidence, parseMoment } from '@/lib/intake/cells/calendar'
import { CellReport } from '@/lib/intake/cells/cell-report'
import { type DateSetting, dayReader, instantReader } from '@/lib/intake/cells/instant'
import { ZoneClock } from '@/lib/intake/cells/zone'
import { findField } from '@/lib/intake/index'
import type { DateOrder } from '@/lib/intake/types'
import { NOW_MS } from '@/test/fixtures/intake/read-file'

function setting(zoneName = 'America/Denver', order: DateOrder | null = null): DateSetting & { assumed: string[] } {
  const assumed: string[] = []
  return { order, zone: new ZoneClock(zoneName), zoneName, nowMs: NOW_MS, assumed, assume: (code) => assumed.push(code) }
}

function readInstant(text: string, dates = setting()): { iso: string | null; codes: string[]; assumed: string[]; report: CellReport } {
  const report = new CellReport()
  report.startRow(3)
  report.startCell(findField('readings', 'taken_at')!, 'taken_at')
  const value = instantReader(dates)(text, report)
  return {
    iso: value instanceof Date ? value.toISOString() : null, codes: report.issues.map((issue) => issue.code), assumed: dates.assumed, report
  }
}

describe('moments', () => {
  it.each([
    ['2026-05-04T09:26:00-06:00', '2026-05-04T15:26:00.000Z'], ['2026-05-04T15:26:00Z', '2026-05-04T15:26:00.000Z'],
    ['2026-05-04 09:26', '2026-05-04T15:26:00.000Z'], ['2026-05-04T09:26:00.25', '2026-05-04T15:26:00.250Z'],
    ['2026-05-04T09:26-0600', '2026-05-04T15:26:00.000Z'], ['20260504T152600Z', '2026-05-04T15:26:00.000Z'],
    ['5/14/2026 9:26 AM', '2026-05-14T15:26:00.000Z'], ['5/14/2026 12:05 PM', '2026-05-14T18:05:00.000Z'],
    ['5/14/2026 12:05 am', '2026-05-14T06:05:00.000Z'],
    ['14.05.2026 09:26', '2026-05-14T15:26:00.000Z'], ['14 May 2026 09:26:30', '2026-05-14T15:26:30.000Z'],
    ['May 14, 2026 9:26 AM', '2026-05-14T15:26:00.000Z'],
    ['14-May-26 09:26', '2026-05-14T15:26:00.000Z'], ['2026/05/14 09:26 UTC', '2026-05-14T09:26:00.000Z'],
    ['Thu, 14 May 2026 09:26', '2026-05-14T15:26:00.000Z'],
    ['2026-01-14 09:26', '2026-01-14T16:26:00.000Z'],
  ])('%s in Denver is %s', (text, iso) => {
    expect(readInstant(text)).toMatchObject({ iso, codes: [] })
  })

  it('reads spreadsheet days on the wall clock and Unix times as they are, and says that it did', () => {
    expect(readInstant('46146.5')).toMatchObject({ iso: '2026-05-04T18:00:00.000Z', assumed: ['number-date', 'zone'] })
    expect(readInstant('1777908360')).toMatchObject({ iso: '2026-05-04T15:26:00.000Z', assumed: ['number-date'] })
    expect(readInstant('1777908360000')).toMatchObject({ iso: '2026-05-04T15:26:00.000Z' })
  })

  it('says that a zone was taken where a time has no offset, and only there', () => {
    expect(readInstant('2026-05-04 09:26').assumed).toEqual(['zone'])
    for (const own of ['2026-05-04T09:26:00-06:00', '2026-05-04T15:26:00Z', '1777908360000']) expect(readInstant(own).assumed).not.toContain('zone')
  })

  it('takes a date alone as midnight, and says so', () => {
    expect(readInstant('2026-05-04')).toMatchObject({ iso: '2026-05-04T06:00:00.000Z', assumed: ['midnight'] })
  })

  it.each([
    ['2026-06-01T12:11:00Z', 'time-in-future'], ['2027-01-01', 'time-in-future'], ['1899-12-30', 'time-too-early'],
    ['2026-02-29', 'no-such-day'],
    ['2026-13-01', 'no-such-day'], ['2026-05-04 25:00', 'no-such-day'], ['5/14/2026 13:05 PM', 'no-such-day'],
    ['2026-05-04 09:26 MST', 'unknown-zone'],
    ['yesterday', 'not-a-date'], ['45A', 'not-a-date'], ['=NOW()', 'formula-cell'], ['#VALUE!', 'spreadsheet-error'],
    ['x'.repeat(5000), 'not-a-date'],
  ])('%s is refused as %s', (text, code) => {
    expect(readInstant(text)).toMatchObject({ iso: null, codes: [code] })
  })

  it('lets clocks differ by ten minutes', () => {
    expect(readInstant('2026-06-01T12:09:59Z').codes).toEqual([])
  })

  it('warns of clocks that were never set', () => {
    for (const text of ['1970-01-01T00:00:00Z', '1980-01-06T00:00:00Z']) expect(readInstant(text).codes).toEqual(['clock-not-set'])
  })

  it('names row, field, value and remedy', () => {
    expect(readInstant('2027-01-01T00:00:00Z').report.issues[0]).toEqual({
      severity: 'error', row: 3, field: 'taken_at', value: '2027-01-01T00:00:00Z', code: 'time-in-future',
      message: 'Row 3, taken_at: \'2027-01-01T00:00:00Z\' lies in the future.',
      remedy: 'Check the year, the order of day and month, the instrument\'s clock, and the zone (America/Denver).',
    })
  })
})

describe('day and month', () => {
  it('follow the file\'s order', () => {
    expect(parseMoment('03/04/2026', 'mdy')).toMatchObject({ month: 3, day: 4, assumedOrder: false })
    expect(parseMoment('03/04/2026', 'dmy')).toMatchObject({ month: 4, day: 3, assumedOrder: false })
  })

  it('are assumed month first where nothing tells, and it is counted', () => {
    expect(readInstant('03/04/2026 10:00')).toMatchObject({ iso: '2026-03-04T17:00:00.000Z', assumed: ['date-order', 'zone'] })
    expect(readInstant('04/04/2026 10:00').assumed).not.toContain('date-order')
  })

  it('are not turned round for one row', () => {
    expect(readInstant('14/05/2026', setting('UTC', 'mdy')).codes).toEqual(['date-order'])
    expect(readInstant('05/14/2026', setting('UTC', 'dmy')).codes).toEqual(['date-order'])
  })

  it.each([
    ['14/05/2026', 'dmy'], ['05/14/26 9:00', 'mdy'], ['05/04/2026', 'ambiguous'], ['2026-05-14', null], ['14.05.2026', null], ['45A', null],
    // Days that there are not.
    ['31/04/2026', null], ['02/30/2026', null], ['29/02/2026', null], ['29/02/2028', 'dmy'], ['30/30/2026', null],
  ])(
    '%s tells %s', (text, evidence) => {
      expect(dateOrderEvidence(text)).toBe(evidence)
    },
  )
})

describe('changes of the clock in Denver', () => {
  it('forward: 02:30 on 8 March 2026 did not exist and is taken an hour later', () => {
    expect(readInstant('2026-03-08 02:30')).toMatchObject({ iso: '2026-03-08T09:30:00.000Z', codes: ['clock-gap'] })
  })

  it('back: 01:30 on 2 November 2025 came twice and the earlier is taken', () => {
    expect(readInstant('2025-11-02 01:30')).toMatchObject({ iso: '2025-11-02T07:30:00.000Z', codes: ['clock-overlap'] })
  })

  it('leave the hours beside them alone', () => {
    expect(readInstant('2026-03-08 01:59')).toMatchObject({ iso: '2026-03-08T08:59:00.000Z', codes: [] })
    expect(readInstant('2026-03-08 03:00')).toMatchObject({ iso: '2026-03-08T09:00:00.000Z', codes: [] })
    expect(readInstant('2025-11-02 00:59')).toMatchObject({ iso: '2025-11-02T06:59:00.000Z', codes: [] })
    expect(readInstant('2025-11-02 02:00')).toMatchObject({ iso: '2025-11-02T09:00:00.000Z', codes: [] })
  })

  it('are those of zones with odd offsets too', () => {
    expect(readInstant('2026-05-04 12:00', setting('Asia/Kathmandu')).iso).toBe('2026-05-04T06:15:00.000Z')
    expect(readInstant('2026-04-05 01:45', setting('Australia/Lord_Howe'))).toMatchObject({ codes: ['clock-overlap'] })
  })
})

describe('days', () => {
  const day = (text: string): { value: unknown; codes: string[] } => {
    const report = new CellReport()
    report.startRow(1)
    report.startCell(findField('splices', 'installed_on')!, 'installed_on')
    return { value: dayReader(setting())(text, report), codes: report.issues.map((issue) => issue.code) }
  }

  it.each([
    ['1998-06-15', '1998-06-15'], ['6/15/1998', '1998-06-15'], ['15.06.1998', '1998-06-15'], ['15 June 1998', '1998-06-15'],
    ['35961', '1998-06-15'],
    ['1998-06-15T23:00:00-06:00', '1998-06-15'], ['6/15/98', '1998-06-15'], ['6/15/26', '2026-06-15'],
  ])('%s is %s', (text, iso) => {
    expect(day(text)).toEqual({ value: iso, codes: [] })
  })

  it('take the first day of a year or month alone, with a warning', () => {
    expect(day('1998')).toEqual({ value: '1998-01-01', codes: ['day-not-given'] })
    expect(day('1998-06')).toEqual({ value: '1998-06-01', codes: ['day-not-given'] })
  })

  it('that do not exist are left out with a warning', () => {
    expect(day('1998-02-30')).toEqual({ value: undefined, codes: ['no-such-day'] })
  })
})
