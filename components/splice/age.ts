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

/** 'Sep 2024': the month of a moment, for lists. */
export function monthText(atMs: number, timeZone: string): string {
  return new Intl.DateTimeFormat('en-US', { timeZone, month: 'short', year: 'numeric' }).format(atMs)
}

/** A calendar day ('2026-03-14') as people read it: '14 Mar 2026'. */
export const dayText = (day: string): string => formatDate(Date.parse(`${day}T12:00:00Z`), 'UTC')

const UNITS: [name: string, ms: number][] = [
  ['minute', 60_000], ['hour', 3_600_000], ['day', DAY_MS], ['month', 30.44 * DAY_MS], ['year', 365.25 * DAY_MS],
]

/** A stretch of time in whole units, the largest of which there are two or more: '40 minutes', '36 hours', '3 days', '8 months', '2 years'. */
export function durationText(ms: number): string {
  const [name, unitMs] = UNITS.findLast(([, unit]) => ms >= 2 * unit) ?? ['minute', 60_000]
  const count = Math.max(1, Math.floor(ms / unitMs))
  return `${count} ${name}${count === 1 ? '' : 's'}`
}
