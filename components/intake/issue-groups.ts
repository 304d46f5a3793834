import { KNOWN_IN_OTHER_SURVEY, REJECTED_BUT_URGENT } from '@/lib/intake'
import type { ImportReport } from '@/lib/contract/contract'

type Issue = ImportReport['issues'][number]

export interface IssueGroup {
  /** Of this group alone. */
  key: string
  code: string
  severity: Issue['severity']
  /** The one remedy that all rows share; null where they differ. */
  remedy: string | null
  rows: Issue[]
}

/**
 * Issues by severity, code and field, what concerns the whole file by its sentence too, for there the sentence is the remark, and rows that
 * cannot wait by their class: those, critical first, then readings that are no new evidence, then errors, then the most frequent. Rows keep the file's order.
 */
export function groupIssues(issues: readonly Issue[]): IssueGroup[] {
  const groups = new Map<string, IssueGroup>()
  for (const issue of issues) {
    const own = issue.row === 0 ? issue.message : issue.code === REJECTED_BUT_URGENT ? issue.value : ''
    const key = [issue.severity, issue.code, issue.field, own].join('\n')
    const group = groups.get(key)
    if (!group) groups.set(key, { key, code: issue.code, severity: issue.severity, remedy: issue.remedy, rows: [issue] })
    else {
      group.rows.push(issue)
      if (group.remedy !== issue.remedy) group.remedy = null
    }
  }
  const rank = (g: IssueGroup) => (g.code === REJECTED_BUT_URGENT ? (g.rows[0]?.value === 'critical' ? -3 : -2) : g.code === KNOWN_IN_OTHER_SURVEY ? -1 : g.severity === 'error' ? 0 : 1)
  return [...groups.values()].sort((a, b) => rank(a) - rank(b) || b.rows.length - a.rows.length)
}
