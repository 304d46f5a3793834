import type { CallDecision, CallEntryJson, LookAgainJson } from '@/lib/contract/calls'
import { withFullStop } from '@/lib/units/full-stop'
import { formatDate, formatDateTime, formatTime } from '@/lib/units/time'
import { lastAt } from '@/components/intake/urgent-words'

/** What a call decided, as it is chosen and as it is read; British spelling, turned into the reader's at the edge. */
export const DECISION_WORDS: Readonly<Record<CallDecision, string>> = {
  'load-relief': 'Load relief',
  'outage': 'Outage',
  'reclosing-blocked': 'Reclosing blocked',
  'reclosing-left-on': 'Reclosing left on',
  'patrol-first': 'Patrol before re-energising',
  'confirming-reading': 'Confirming reading',
  'repair': 'Repair',
  'nothing-yet': 'Nothing yet',
}

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1)

/** 'Load relief, reclosing blocked'; 'Nothing yet: the planner calls back at four'; empty for what decided nothing. */
export function decidedText({ decided, nothing_why: why }: Pick<CallEntryJson, 'decided' | 'nothing_why'>): string {
  const words = decided.map((one, i) => (i === 0 ? DECISION_WORDS[one] : lower(DECISION_WORDS[one]))).join(', ')
  return why === null ? words : `${words}: ${why}`
}

/** 'L. Engineer called Control room, desk 2'; a look and what was told of a notice in their own words. */
export function whoText({ kind, by, whom }: Pick<CallEntryJson, 'kind' | 'by' | 'whom'>): string {
  if (kind === 'look') return `${by} looked at it again`
  if (kind === 'call') return `${by} called ${whom ?? 'nobody named'}`
  return whom === null ? `Control room told, noted by ${by}` : `Control room told: ${whom}, noted by ${by}`
}

export const struckText = ({ struck_by: by, struck_at: at, struck_why: why }: CallEntryJson, timeZone: string): string =>
  at === null ? '' : `Struck by ${by}, ${formatDateTime(Date.parse(at), timeZone)}: ${withFullStop(why ?? '')}`

/** 'noted 14:20 MDT' where that is minutes after it was; empty else. */
export function notedText({ kind, at, noted_at: notedAt }: Pick<CallEntryJson, 'kind' | 'at' | 'noted_at'>, timeZone: string): string {
  const [atMs, notedMs] = [Date.parse(at), Date.parse(notedAt)]
  if (kind === 'told' || notedMs - atMs < 5 * 60_000) return ''
  return `noted ${formatDate(atMs, timeZone) === formatDate(notedMs, timeZone) ? formatTime(notedMs, timeZone) : formatDateTime(notedMs, timeZone)}`
}

/** How far back the log is read. Shifts begin at these hours at most utilities (common practice, no source). */
export const SINCES = [
  { value: '12h', label: 'Last 12 hours' },
  { value: '24h', label: 'Last 24 hours' },
  { value: '06:00', label: 'Since 06:00, the start of a day shift' },
  { value: '14:00', label: 'Since 14:00, the start of a late shift' },
  { value: '18:00', label: 'Since 18:00, the start of a night shift' },
  { value: '22:00', label: 'Since 22:00, the start of a night shift' },
  { value: '7d', label: 'Last 7 days' },
  { value: 'all', label: 'Everything' },
] as const

export const DEFAULT_SINCE = '24h'

/** The moment of a choice, or of one that stands in an address as ISO 8601; null: from the first entry on. Undefined where it is neither. */
export function sinceMs(since: string, nowMs: number, timeZone: string): number | null | undefined {
  if (since === 'all') return null
  const back = /^(\d{1,3})([hd])$/.exec(since)
  if (back) return nowMs - Number(back[1]) * (back[2] === 'h' ? 3_600_000 : 86_400_000)
  if (/^\d\d:\d\d$/.test(since)) return lastAt(since, nowMs, timeZone) ?? undefined
  return /^\d{4}-\d\d-\d\dT.*(Z|[+-]\d\d:\d\d)$/.test(since) && Number.isFinite(Date.parse(since)) ? Date.parse(since) : undefined
}

/** 'until 20:00 MDT'; 'from 14:00 MDT'; with the day where that is another one. */
export function peakText({ current, next }: Pick<LookAgainJson, 'current' | 'next'>, nowMs: number, timeZone: string): string {
  const moment = (at: string) => (formatDate(Date.parse(at), timeZone) === formatDate(nowMs, timeZone) ? formatTime : formatDateTime)(Date.parse(at), timeZone)
  const until = next === null ? '' : `Next from ${moment(next.from)}.`
  if (current) return `Peak-load period until ${moment(current.to)}. ${until}`.trim()
  return next === null ? 'No peak-load period is set.' : `Next peak-load period from ${moment(next.from)} until ${moment(next.to)}.`
}

/** 'control room told 13:42; not looked at since the reading of 8 Oct 2026': who knows of it, and that nobody has been there since. */
export function askedText(
  one: Pick<LookAgainJson['items'][number], 'last_call_at' | 'last_told_at' | 'last_look_at' | 'last_reading_at'>, nowMs: number, timeZone: string,
): string {
  const moment = (at: string) => (formatDate(Date.parse(at), timeZone) === formatDate(nowMs, timeZone) ? formatTime : formatDateTime)(Date.parse(at), timeZone)
  const { last_told_at: told, last_call_at: called, last_look_at: looked, last_reading_at: read } = one
  const known = told !== null && (called === null || Date.parse(told) >= Date.parse(called)) ? `control room told ${moment(told)}` : called === null ? 'no call noted' : `called ${moment(called)}`
  if (looked === null) return `${known}; never looked at`
  return `${known}; not looked at since the ${looked === read ? 'reading' : 'look'} of ${formatDate(Date.parse(looked), timeZone)}`
}

/** 'urgent at the time of the call' where it is shown as something else by now. */
export const classThen = ({ class: then, class_now: now, kind }: Pick<CallEntryJson, 'class' | 'class_now' | 'kind'>): string =>
  now === null || now === then ? then : `${then} at the time of the ${kind === 'look' ? 'look' : 'call'}`

/** The log of one day, newest first, with what else was noted of a splice right under its newest entry. */
export function groupedBySplice<T extends Pick<CallEntryJson, 'splice_id'>>(ofDay: readonly T[]): { entry: T; repeats: boolean }[] {
  const seen = new Set<number>()
  return ofDay.flatMap((entry) => {
    const { splice_id: id } = entry
    if (id === null) return [{ entry, repeats: false }]
    if (seen.has(id)) return []
    seen.add(id)
    return ofDay.filter((one) => one.splice_id === id).map((one, i) => ({ entry: one, repeats: i > 0 }))
  })
}
