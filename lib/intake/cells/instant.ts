import type { DateOrder } from '../types'
import { type DateTrouble, parseMoment, type WrittenMoment } from './calendar'
import type { CellReport, ReadCell } from './cell-report'
import { DATE_AGAINST_ORDER, setZone } from '../report/remedies'
import { refuseSpreadsheetCell } from './spreadsheet'
import { saysNothing } from './word'
import type { ZoneClock } from './zone'

/** Clocks of instruments and of the server may differ by so much before a reading lies in the future. */
const FUTURE_TOLERANCE_MS = 600_000
/** Nobody plans a flow farther ahead: a year was mistyped. */
export const FARTHEST_PLAN_MS = 30 * 365.25 * 86_400_000

const EARLIEST_MS = Date.UTC(1950, 0, 1)
/** Where clocks stand that were never set: Unix, GPS, and cameras. */
const UNSET_CLOCKS_MS = new Set([0, Date.UTC(1980, 0, 6), Date.UTC(1980, 0, 1), Date.UTC(2000, 0, 1)])
const SPREADSHEET_EPOCH_MS = Date.UTC(1899, 11, 30)
const DAY_MS = 86_400_000

/** What reading dates needs to know; `assumed` counts what had to be assumed, for one sentence per file. */
export interface DateSetting {
  order: DateOrder | null
  zone: ZoneClock
  zoneName: string
  nowMs: number
  /** How far ahead a moment may lie; absent: no farther than clocks differ. */
  aheadMs?: number
  assume(code: 'date-order' | 'zone' | 'midnight' | 'number-date', row: number): void
}

function refuseDate(text: string, trouble: DateTrouble, report: CellReport): undefined {
  switch (trouble) {
    case 'no-such-day': return report.refuse(
      'no-such-day', text, 'names a day or time that does not exist.', 'Correct the date; 2026-05-04T09:26:00-06:00 is always understood.'
    )
    case 'unknown-zone': return report.refuse(
      'unknown-zone', text, 'ends in a zone that is not understood.',
      `Write the offset instead, such as -06:00, or drop it and ${setZone}.`
    )
    case 'other-order': return report.refuse(
      'date-order', text, 'has day and month the other way round than the rest of the file.',
      DATE_AGAINST_ORDER
    )
    default: return report.refuse(
      'not-a-date', text, 'is no date that is understood.',
      'Write it as 2026-05-04T09:26:00-06:00, or without the offset in the file\'s time zone.'
    )
  }
}

/** Unix seconds or milliseconds, or a spreadsheet's day number, which is a wall clock; null where it is neither. */
function numberMoment(text: string): { ms: number; wall: boolean } | null {
  if (!/^\d{5}(\.\d+)?$|^\d{10}(\.\d+)?$|^\d{13}$/.test(text)) return null
  const whole = text.split('.')[0]!.length
  if (whole === 13) return { ms: Number(text), wall: false }
  if (whole === 10) return { ms: Math.round(Number(text) * 1000), wall: false }
  return { ms: SPREADSHEET_EPOCH_MS + Math.round(Number(text) * DAY_MS), wall: true }
}

/** A moment as a Date, by its own offset or in the file's zone. */
export function instantReader(setting: DateSetting): ReadCell {
  return (text, report) => {
    const written = parseMoment(text, setting.order)
    if (typeof written !== 'string') return momentOf(written, text, setting, report)
    if (saysNothing(text)) return null
    if (refuseSpreadsheetCell(text, report)) return undefined
    const number = numberMoment(text)
    if (!number) return refuseDate(text, written, report)
    setting.assume('number-date', report.row)
    if (number.wall) setting.assume('zone', report.row)
    return inRange(number.wall ? setting.zone.toUtc(number.ms).atMs : number.ms, text, setting, report)
  }
}

function momentOf(written: WrittenMoment, text: string, setting: DateSetting, report: CellReport): Date | undefined {
  if (written.assumedOrder) setting.assume('date-order', report.row)
  if (written.dayMs === null) setting.assume('midnight', report.row)
  const wallMs = Date.UTC(written.year, written.month - 1, written.day) + (written.dayMs ?? 0)
  if (written.offsetMin !== null) return inRange(wallMs - written.offsetMin * 60_000, text, setting, report)
  if (written.dayMs !== null) setting.assume('zone', report.row)
  const { atMs, doubt } = setting.zone.toUtc(wallMs)
  if (doubt === 'gap') {
    report.warn(
      'clock-gap', text, `did not exist in ${setting.zoneName}: clocks were put forward over it. It is taken an hour later.`,
      'Write the time with its offset.'
    )
  } else if (doubt === 'overlap') {
    report.warn(
      'clock-overlap', text, `came twice in ${setting.zoneName}, when clocks were put back. The earlier one is taken.`,
      'Write the time with its offset.'
    )
  }
  return inRange(atMs, text, setting, report)
}

export const liesAhead = (atMs: number, nowMs: number, byMs = FUTURE_TOLERANCE_MS): boolean => atMs > nowMs + byMs

function inRange(atMs: number, text: string, setting: DateSetting, report: CellReport): Date | undefined {
  if (liesAhead(atMs, setting.nowMs, setting.aheadMs)) {
    return report.refuse(
      'time-in-future', text, 'lies in the future.', `Check the year, the order of day and month, the instrument's clock, and the zone (${setting.zoneName}).`
    )
  }
  if (atMs < EARLIEST_MS) return report.refuse('time-too-early', text, 'lies before 1950.', 'Check the date and how it was exported.')
  if (UNSET_CLOCKS_MS.has(atMs)) {
    report.warn('clock-not-set', text, 'is where a clock stands that was never set.', 'Give the true time where it is known.')
  }
  return new Date(atMs)
}

/** A calendar day as yyyy-mm-dd; a year or a month alone stand for their first day, with a warning. */
export function dayReader(setting: DateSetting): ReadCell {
  return (text, report) => {
    const partial = /^(\d{4})(?:-(\d{2}))?$/.exec(text)
    if (
      partial && Number(partial[1]) > 1850 && Number(partial[1]) < 2200 && Number(partial[2] ?? 1) >= 1 && Number(partial[2] ?? 1) <= 12
    ) {
      const day = `${partial[1]}-${partial[2] ?? '01'}-01`
      report.warn('day-not-given', text, `names no day; ${day} is taken.`, 'Write the whole date where it is known.')
      return day
    }
    const written = parseMoment(text, setting.order)
    if (typeof written !== 'string') {
      if (written.assumedOrder) setting.assume('date-order', report.row)
      return isoDay(written.year, written.month, written.day)
    }
    if (saysNothing(text)) return null
    if (refuseSpreadsheetCell(text, report)) return undefined
    if (!/^\d{5}$/.test(text)) return refuseDate(text, written, report)
    setting.assume('number-date', report.row)
    return new Date(SPREADSHEET_EPOCH_MS + Number(text) * DAY_MS).toISOString().slice(0, 10)
  }
}

const isoDay = (year: number, month: number, day: number): string =>
  `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`
