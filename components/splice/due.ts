import type { HistoryEntry, SpliceDetail } from '@/lib/contract/contract'
import { formatDate, formatDateTime } from '@/lib/units/time'
import { durationText } from './age'
import type { StoredAssessment } from './assessment'

const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS

type Action = StoredAssessment['nextActions'][number]

export interface Due {
  text: string
  overdue: boolean
}

/**
 * By when, in the reader's zone. Hours and days count from when the class was first shown to people: before that nobody could answer it,
 * and no later assessment moves it. A survey that comes round again counts from the last reading. Null where policy sets no time.
 */
export function dueOf(
  action: Action | undefined, of: Pick<SpliceDetail, 'raised_at' | 'last_reading_at'>, timeZone: string, nowMs: number,
): Due | null {
  if (!action) return null
  const from = action.code === 'measure-again' ? (of.last_reading_at ?? of.raised_at) : of.raised_at
  const withinMs = action.withinHours !== undefined ? action.withinHours * HOUR_MS : action.withinDays === undefined ? null : action.withinDays * DAY_MS
  if (from === null || withinMs === null) return null
  const dueMs = Date.parse(from) + withinMs
  const at = action.withinHours !== undefined ? formatDateTime(dueMs, timeZone) : formatDate(dueMs, timeZone)
  if (nowMs <= dueMs) return { text: `By ${at}.`, overdue: false }
  return { text: `Due ${at}, overdue by ${durationText(nowMs - dueMs)}.`, overdue: true }
}

/** When the control room was told, of the last notice; null where none was raised or one still waits. */
export function lastTold(history: readonly HistoryEntry[]): Extract<HistoryEntry, { kind: 'told' }> | null {
  const told = history.filter((entry) => entry.kind === 'told')
  const raised = history.filter((entry) => entry.kind === 'notice').length
  if (raised === 0 || told.length < raised) return null
  return told.reduce((last, entry) => (entry.at > last.at ? entry : last))
}
