/** When people last looked at Operations in this browser, in the store's clock. A moment is ISO 8601. */
export interface Visit {
  /** Up to when the visit before this one saw everything; null at the first. */
  previous: string | null
  /** Up to when this visit has. */
  seen: string | null
}

/** Two visits are parted by so long with the screen closed or out of sight: a reload is no new visit. */
export const APART_MS = 30 * 60_000
/** What is shown where nobody has been before. */
export const FIRST_DAYS = 7

const DAY_MS = 86_400_000

const momentOf = (text: string | undefined): string | null => (text && /^\d{4}-\d\d-\d\dT[\d:.]+Z$/.test(text) && Number.isFinite(Date.parse(text)) ? text : null)

/** Whatever else a browser kept counts as nothing kept. */
export function parseVisit(text: string | undefined): Visit {
  const [previous, seen] = (text ?? '').split('~')
  return { previous: momentOf(previous), seen: momentOf(seen) }
}

export const formatVisit = ({ previous, seen }: Visit): string => `${previous ?? ''}~${seen ?? ''}`

/** The visit that goes on, or a new one whose last is over. @param now up to when the store tells everything */
export function arrive({ previous, seen }: Visit, now: string): Visit {
  const isApart = seen !== null && Date.parse(now) - Date.parse(seen) >= APART_MS
  return { previous: isApart ? seen : previous, seen: now }
}

export interface Since {
  at: string
  /** What the moment is. */
  of: 'visit' | 'first'
}

/** Since when changes are told where nobody asks otherwise: the last visit, and without one a week. */
export function sinceOf({ previous }: Visit, nowMs: number): Since {
  return previous ? { at: previous, of: 'visit' } : { at: new Date(nowMs - FIRST_DAYS * DAY_MS).toISOString(), of: 'first' }
}

/** The address of the screen that tells what changed. */
export function changesHref(since: string, circuitIds?: readonly number[]): string {
  return `/operations/changes?${new URLSearchParams({ since, ...(circuitIds?.length ? { circuit: circuitIds.join(',') } : {}) })}`
}
