import type { HistoryEntry, SpliceDetail } from '@/lib/contract/contract'
import { formatDate, formatDateTime } from '@/lib/units/time'
import { durationText } from './age'
import type { StoredAssessment } from './assessment'

const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS

type Action = StoredAssessment['nextActions'][number]

type Clocks = Pick<SpliceDetail, 'raised_at' | 'last_reading_at'> & { outlook?: Pick<NonNullable<SpliceDetail['outlook']>, 'next_reading_due_at'> | null }

export interface Due {
  text: string
  overdue: boolean
}

/**
 * By when, in the reader's zone. Hours and days count from when the class was first shown to people: before that nobody could answer it,
 * and no later assessment moves it. A reading that comes round again is due when the engine says, else by the last reading. Null where policy sets no time.
 */
export function dueOf(
  action: Action | undefined, of: Clocks, timeZone: string, nowMs: number,
): Due | null {
  const dueMs = action && dueMsOf(action, of)
  if (!action || dueMs === null || dueMs === undefined) return null
  const at = action.withinHours !== undefined ? formatDateTime(dueMs, timeZone) : formatDate(dueMs, timeZone)
  if (nowMs <= dueMs) return { text: `By ${at}.`, overdue: false }
  return { text: `Due ${at}, overdue by ${durationText(nowMs - dueMs)}.`, overdue: true }
}

function dueMsOf(action: Action, of: Clocks): number | null {
  const again = action.code === 'measure-again' ? of.outlook?.next_reading_due_at : null
  if (again) return Date.parse(again)
  const from = action.code === 'measure-again' ? (of.last_reading_at ?? of.raised_at) : of.raised_at
  const withinMs = action.withinHours !== undefined ? action.withinHours * HOUR_MS : action.withinDays === undefined ? null : action.withinDays * DAY_MS
  return from === null || withinMs === null ? null : Date.parse(from) + withinMs
}

/** The first thing that falls due from now on, ms; undefined where nothing does. */
export function firstDueMs(actions: readonly Action[], of: Clocks, nowMs: number): number | undefined {
  const due = actions.map((action) => dueMsOf(action, of)).filter((atMs) => atMs !== null && atMs > nowMs) as number[]
  return due.length === 0 ? undefined : Math.min(...due)
}

/** When the control room was told, of the last notice; null where none was raised or one still waits. */
export function lastTold(history: readonly HistoryEntry[]): Extract<HistoryEntry, { kind: 'told' }> | null {
  const told = history.filter((entry) => entry.kind === 'told')
  const raised = history.filter((entry) => entry.kind === 'notice').length
  if (raised === 0 || told.length < raised) return null
  return told.reduce((last, entry) => (entry.at > last.at ? entry : last))
}

/** How long the class may stand before it is repaired, by the actions that go with it, ms; null where it sets no time. */
export function responseMs(actions: readonly Action[]): number | null {
  const repair = actions.find(({ code }) => code === 'repair' || code === 'repair-in-outage')
  if (repair?.withinHours !== undefined) return repair.withinHours * HOUR_MS
  return repair?.withinDays === undefined ? null : repair.withinDays * DAY_MS
}

/** ' It lay 61 days before it was read in, longer than ...' where that was longer than the response time; empty otherwise. */
export function unreadWords({ found_at: foundAt, read_in_at: readInAt }: Pick<SpliceDetail, 'found_at' | 'read_in_at'>, allowedMs: number | null): string {
  if (foundAt === null || readInAt === null || allowedMs === null) return ''
  const unreadMs = Date.parse(readInAt) - Date.parse(foundAt)
  if (unreadMs <= allowedMs) return ''
  return ` The reading lay ${durationText(unreadMs)} before it was read in here, past the ${durationText(allowedMs)} that its class allows.`
}
