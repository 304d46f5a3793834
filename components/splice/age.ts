import { formatDate } from '@/lib/units/time'

const DAY_MS = 86_400_000

/** How long ago, in the largest unit that fits: '3 d', '5 mo', '2.1 y'. Months of 30.44 days. */
export function ageText(atMs: number, nowMs: number): string {
  const days = (nowMs - atMs) / DAY_MS
  if (days < 1) return 'today'
  if (days < 60) return `${Math.floor(days)} d`
  if (days < 730) return `${Math.floor(days / 30.44)} mo`
  return `${(days / 365.25).toFixed(1)} y`
}

/** '3 d ago'; a moment of the last day is 'today'. */
export function agoText(atMs: number, nowMs: number): string {
  const age = ageText(atMs, nowMs)
  return age === 'today' ? age : `${age} ago`
}

/** A calendar day ('2026-03-14') as people read it: '14 Mar 2026'. */
export const dayText = (day: string): string => formatDate(Date.parse(`${day}T12:00:00Z`), 'UTC')

const HOUR_MS = 3_600_000

/** Each unit with the stretch from which it is told: days for a quarter, so that what is overdue does not hide its weeks in a month. */
const UNITS: [name: string, ms: number, fromMs: number][] = [
  ['minute', 60_000, 0], ['hour', HOUR_MS, 2 * HOUR_MS], ['day', DAY_MS, 2 * DAY_MS], ['month', 30.44 * DAY_MS, 91 * DAY_MS], ['year', 365.25 * DAY_MS, 730 * DAY_MS],
]

/** A stretch of time: '40 minutes', '36 hours', '70 days', '8 months', '6 years'. Months and years are rounded, what is shorter counts when it is full. */
export function durationText(ms: number): string {
  const [name, unitMs] = UNITS.findLast(([, , fromMs]) => ms >= fromMs) ?? ['minute', 60_000]
  const count = Math.max(1, unitMs > DAY_MS ? Math.round(ms / unitMs) : Math.floor(ms / unitMs))
  return `${count} ${name}${count === 1 ? '' : 's'}`
}
