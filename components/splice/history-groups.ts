import type { HistoryEntry } from '@/lib/contract/history'

/** Paper keeps to the newest assessments that changed the class. Who was told, who decided and what was repaired stands on it whole. */
const CHANGES_ON_PAPER = 2

export type Grouped = [first: HistoryEntry, ...others: HistoryEntry[]]

/** What makes two notices, or two calls, one line: nothing but the reading differs. Null for what always stands by itself. */
function likeness(entry: HistoryEntry): string | null {
  const minute = entry.at.slice(0, 16)
  if (entry.kind === 'notice') return ['notice', minute, entry.class, entry.basis, entry.survey].join('|')
  return entry.kind === 'told' ? ['told', minute, entry.class, entry.by, entry.told_to, entry.told_at?.slice(0, 16), entry.survey].join('|') : null
}

/** Notices of one minute, class and survey in one line with all their readings, and calls likewise; in the order they came in. */
export function groupHistory(history: readonly HistoryEntry[]): Grouped[] {
  const groups: Grouped[] = []
  const known = new Map<string, Grouped>()
  for (const entry of history) {
    const like = likeness(entry)
    const group = like === null ? undefined : known.get(like)
    if (group) {
      group.push(entry)
      continue
    }
    const fresh: Grouped = [entry]
    groups.push(fresh)
    if (like !== null) known.set(like, fresh)
  }
  return groups
}

/**
 * What paper leaves out: assessments that left the class as it was, changes older than the newest few, and notices of which the line above says
 * who was told. @param history newest first
 */
export function offPaper(history: readonly HistoryEntry[]): Set<HistoryEntry> {
  const assessments = history.filter((entry) => entry.kind === 'assessment')
  const changes = assessments.filter((entry, i) => {
    const before = assessments[i + 1]
    return before?.class !== entry.class || before.held !== entry.held
  })
  const kept = new Set(changes.slice(0, CHANGES_ON_PAPER))
  const told = history.filter((entry) => entry.kind === 'told')
  const answered = history.filter((entry) => entry.kind === 'notice' && told.some((one) => one.class === entry.class && one.survey === entry.survey && one.at >= entry.at))
  return new Set<HistoryEntry>([...assessments.filter((entry) => !kept.has(entry)), ...answered])
}
