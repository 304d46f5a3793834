import type { WatchState } from '@/lib/contract/watch'
import { advisedText } from '@/components/splice/advised-text'
import { formatDate, formatTime } from '@/lib/units/time'

/** What is to be done, and what is said of it after its time: where a row is too short, no time and no zone is cut. */
const NEXT_WORDS: Readonly<Record<WatchState['next'], { what: string; short: string; after: string }>> = {
  'call-control-room': { what: 'Call the control room', short: 'Call control room', after: '' },
  'decide-load-or-outage': { what: 'Decide load or outage', short: 'Decide', after: ': load or outage' },
  'second-reading-or-engineer': { what: 'Second reading or engineer', short: 'Second reading', after: ', or engineer' },
  'repair': { what: 'Repair', short: 'Repair', after: '' },
  'repair-in-outage': { what: 'Repair in an outage', short: 'Repair', after: ', in an outage' },
}

const LIMIT_WORDS: Readonly<Record<WatchState['limit_state'], string>> = {
  'none': 'no limit', 'proposed': 'limit proposed', 'agreed': 'limit agreed', 'in-force': 'limit in force', 'ask-engineer': 'limit: ask engineer',
}

const DAY_MS = 86_400_000

/** 'Decide by 18:43 MST: load or outage'; a response time that is over is said so. */
export function nextText({ next, due_at: dueAt }: Pick<WatchState, 'next' | 'due_at'>, nowMs: number, timeZone: string): { text: string; overdue: boolean } {
  const { what, short, after } = NEXT_WORDS[next]
  const dueMs = dueAt === null ? null : Date.parse(dueAt)
  if (dueMs === null) return { text: what, overdue: false }
  if (nowMs <= dueMs) return { text: `${short} by ${(dueMs - nowMs < DAY_MS ? formatTime : formatDate)(dueMs, timeZone)}${after}`, overdue: false }
  const days = Math.floor((nowMs - dueMs) / DAY_MS)
  return { text: `${what}, ${days === 0 ? 'late' : `${days} d late`}`, overdue: true }
}

/** Of a class whose finding was taken back: an undo lowers none, so it stands, and so does its ratio. */
export const HELD_BY_WITHDRAWN = 'held by a reading that was withdrawn'

const LOAD_WORDS: Readonly<Record<NonNullable<WatchState['load']>, string>> = { last: 'last load', peak: 'peak', contingency: 'contingency' }

/**
 * Why it stands where it does, in the order of the rule: 'peak 82 % of limit' where one is in force, else 'contingency 114 % of 686 A (273 MVA)
 * advised', 'radial, 300 MW at stake, crosses rail, 3 years old'. Of the flows the greatest, by its name.
 */
export function riskText(
  { finding_withdrawn: isWithdrawn, load_share: share, load, advised_a: advisedA, voltage_kv: voltageKv, limit_state: limit, radial, mw, crossing }: WatchState, lastReadingAt: string | null, nowMs: number,
): string {
  const years = lastReadingAt === null ? null : Math.floor((nowMs - Date.parse(lastReadingAt)) / (365.25 * DAY_MS))
  const against = advisedA !== null && isHeldAgainstAdvice({ limit_state: limit, advised_a: advisedA }) ? `${advisedText(advisedA, voltageKv)} advised` : 'limit'
  return [
    isWithdrawn ? HELD_BY_WITHDRAWN : '',
    share === null ? 'load or limit not known' : `${LOAD_WORDS[load ?? 'last']} ${shareText(share)} of ${against}`,
    radial ? 'radial' : '',
    mw !== null && mw >= 100 ? `${Math.round(mw)} MW at stake` : '',
    crossing === null ? '' : `crosses ${crossing}`,
    years === null ? 'never read' : years < 1 ? '' : `${years} ${years === 1 ? 'year' : 'years'} old`,
  ].filter(Boolean).join(', ')
}

const isHeldAgainstAdvice = ({ limit_state: limit, advised_a: advisedA }: Pick<WatchState, 'limit_state' | 'advised_a'>): boolean => limit !== 'in-force' && advisedA !== null

const shareText = (share: number): string => (share >= 10 ? 'over ten times' : `${Math.round(share * 100)} %`)

export const calledText = ({ waits_for_call: waits, called_at: calledAt }: Pick<WatchState, 'waits_for_call' | 'called_at'>): string =>
  waits ? 'not called' : calledAt === null ? 'no call' : 'called'

/** 'called, limit proposed'. Where the load is held against an advised figure, that says that there is no limit. */
export const stateText = (watch: WatchState): string =>
  (watch.limit_state === 'none' && watch.load_share !== null && isHeldAgainstAdvice(watch) ? calledText(watch) : `${calledText(watch)}, ${LIMIT_WORDS[watch.limit_state]}`)
