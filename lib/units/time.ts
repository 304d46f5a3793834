import { NOT_KNOWN, type Measure } from './format'

/** True for an IANA zone name that this runtime knows, such as 'America/Denver'. */
export function isTimeZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat('en-GB', { timeZone: zone })
    return true
  } catch {
    return false
  }
}

// Making a formatter costs more than a thousand uses of it, and lists format many times in one zone.
const formatters = new Map<string, Intl.DateTimeFormat>()

function formatter(timeZone: string): Intl.DateTimeFormat {
  const known = formatters.get(timeZone)
  if (known) return known
  const made = new Intl.DateTimeFormat('en-US', {
    timeZone, year: 'numeric', month: 'short', day: 'numeric', hour: '2-digit', minute: '2-digit', hourCycle: 'h23', timeZoneName: 'short',
  })
  formatters.set(timeZone, made)
  return made
}

function parts(atMs: number, timeZone: string): Record<string, string> | null {
  if (!Number.isFinite(atMs) || Math.abs(atMs) > 8.64e15) return null
  return Object.fromEntries(formatter(timeZone).formatToParts(atMs).map((part) => [part.type, part.value]))
}

/**
 * A moment in a zone, day before month in letters so that nobody reads it the other way round: '14 Mar 2026 09:26' and 'MDT'.
 * @param atMs milliseconds since 1970 UTC
 * @throws RangeError for a zone that does not exist: settings check it with `isTimeZone`.
 */
export function dateTimeMeasure(atMs: number, timeZone: string): Measure {
  const p = parts(atMs, timeZone)
  if (!p) return { value: NOT_KNOWN, unit: '' }
  return { value: `${p.day} ${p.month} ${p.year} ${p.hour}:${p.minute}`, unit: p.timeZoneName ?? timeZone }
}

/** As `dateTimeMeasure`, as one text with the zone shown. */
export function formatDateTime(atMs: number, timeZone: string): string {
  const { value, unit } = dateTimeMeasure(atMs, timeZone)
  return unit === '' ? value : `${value} ${unit}`
}

/** The day alone, in the zone where the work was done. */
export function formatDate(atMs: number, timeZone: string): string {
  const p = parts(atMs, timeZone)
  return p ? `${p.day} ${p.month} ${p.year}` : NOT_KNOWN
}

/** The month alone, for lists: 'Sep 2024'. */
export function formatMonth(atMs: number, timeZone: string): string {
  const p = parts(atMs, timeZone)
  return p ? `${p.month} ${p.year}` : NOT_KNOWN
}

/** The time of day alone, with the zone: '09:26 MDT'. */
export function formatTime(atMs: number, timeZone: string): string {
  const p = parts(atMs, timeZone)
  return p ? `${p.hour}:${p.minute} ${p.timeZoneName ?? timeZone}` : NOT_KNOWN
}
