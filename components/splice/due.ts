import type { SpliceDetail } from '@/lib/contract/contract'
import type { HistoryEntry } from '@/lib/contract/history'
import { formatDate, formatDateTime } from '@/lib/units/time'
import { durationText } from './age'
import type { StoredAssessment } from './assessment'

const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS

type Action = StoredAssessment['nextActions'][number]

type Clocks = Pick<SpliceDetail, 'raised_at' | 'last_reading_at'> & Partial<Pick<SpliceDetail, 'first_found_at' | 'read_in_at'>> & { outlook?: Pick<NonNullable<SpliceDetail['outlook']>, 'next_reading_due_at'> | null }

export interface Due {
  text: string
  overdue: boolean
}

/**
 * By when, in the reader's zone. Hours and days of a call count from when the class was first shown to people: before that nobody could answer
 * it. Those of a repair count from when its finding was measured, whatever the class, and no later assessment moves it: how long the finding lay
 * before it was entered here does not slow the splice. Where that time is over, both are said. A reading that comes round again is due when the engine says, else by the last reading. Null where policy sets no time.
 */
export function dueOf(
  action: Action | undefined, of: Clocks, timeZone: string, nowMs: number,
): Due | null {
  const dueMs = action && dueMsOf(action, of)
  if (!action || dueMs === null || dueMs === undefined) return null
  const at = action.withinHours !== undefined ? formatDateTime(dueMs, timeZone) : formatDate(dueMs, timeZone)
  const late = isRepair(action) ? lateSinceMs(action, of) : null
  if (late !== null && nowMs > late.sinceMs) {
    const [since, learned] = [late.sinceMs, late.enteredMs].map((ms) => formatDate(ms, timeZone))
    const later = nowMs <= dueMs ? `by ${at}` : `${at}, over too`
    return {
      text: `Due ${since} by its finding, overdue by ${durationText(nowMs - late.sinceMs)}. Learned of here ${learned}: from then ${later}, no date agreed.`,
      overdue: true,
    }
  }
  if (late !== null) return { text: `By ${action.withinHours !== undefined ? formatDateTime(late.sinceMs, timeZone) : formatDate(late.sinceMs, timeZone)}.`, overdue: false }
  if (nowMs <= dueMs) return { text: `By ${at}.`, overdue: false }
  return { text: `Due ${at}, overdue by ${durationText(nowMs - dueMs)}.`, overdue: true }
}

const isRepair = ({ code }: Action): boolean => code === 'repair' || code === 'repair-in-outage'

/** How long the finding lay before it was entered here, ms; null where one of the moments is not known, or it did not lie. */
function unreadMsOf({ first_found_at: foundAt, read_in_at: readInAt }: Partial<Pick<SpliceDetail, 'first_found_at' | 'read_in_at'>>): number | null {
  const ms = foundAt && readInAt ? Date.parse(readInAt) - Date.parse(foundAt) : 0
  return ms > 0 ? ms : null
}

/** Since when the time of an action has been over, counted from when its finding was measured. */
function lateSinceMs(action: Action, of: Clocks): { sinceMs: number; enteredMs: number } | null {
  const [dueMs, unreadMs] = [dueMsOf(action, of), unreadMsOf(of)]
  return dueMs === null || unreadMs === null ? null : { sinceMs: dueMs - unreadMs, enteredMs: Date.parse(of.read_in_at ?? '') }
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

/**
 * When the control room was told, of the last notice; null where none was raised or one still waits. What was told of a withdrawn reading says
 * nothing of the call about one that stands.
 */
export function lastTold(history: readonly HistoryEntry[]): Extract<HistoryEntry, { kind: 'told' }> | null {
  const notices = history.filter((entry) => entry.kind === 'notice' || entry.kind === 'told')
  const standing = notices.filter((entry) => !entry.withdrawn)
  const of = standing.length > 0 ? standing : notices
  const told = of.filter((entry) => entry.kind === 'told')
  const raised = of.length - told.length
  if (raised === 0 || told.length < raised) return null
  return told.reduce((last, entry) => (entry.at > last.at ? entry : last))
}
