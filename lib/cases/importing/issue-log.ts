import { remedyOf, type FileRemedy } from '@/lib/intake/report/most-rows'
import { withPlace } from '@/lib/intake/report/place'
import type { RowIssue } from '@/lib/intake/types'
import type { UnitSystem } from '@/lib/units/format'
import { localText } from '@/lib/units/local-text'
import { insertIssues, setIssueRemedy } from '@/lib/store/import-issues'
import type { Scope } from '@/lib/store/scope'
import type { Tx } from '@/lib/store/transaction'

const keyOf = (code: string, field = ''): string => `${code} ${field}`

const SHOWN = 500
const BATCH = 2_000

/** What geometry says of a row; it does not know the row's text or line. */
export type Issue = Omit<RowIssue, 'raw'>

/** The issues of one import: counted, the first of each severity kept for the report, all of them written to the store in batches. */
export class IssueLog {
  readonly rejectedRows = new Set<number>()
  /** How many issues there are by code and field. */
  private readonly counts = new Map<string, number>()
  /** Every issue, where they are to be written after a rollback. */
  readonly all: RowIssue[] = []
  count = 0
  private waiting: RowIssue[] = []
  private readonly shown: Record<RowIssue['severity'], RowIssue[]> = { error: [], warning: [] }

  constructor(
    private readonly scope: Scope, private readonly importId: number,
    /** Line of the file on which a row begins. */
    readonly lineOf: (row: number) => number | undefined, private readonly system: UnitSystem, private readonly keepAll = false,
  ) {}

  /** An error rejects its row; `raw` is the row as it stood in the file. Every sentence begins with its place. */
  add(issue: Issue, raw?: string): void {
    if (issue.severity === 'error') this.rejectedRows.add(issue.row)
    this.count++
    for (const key of issue.field === undefined ? [keyOf(issue.code)] : [keyOf(issue.code), keyOf(issue.code, issue.field)]) this.counts.set(key, (this.counts.get(key) ?? 0) + 1)
    const line = issue.line ?? this.lineOf(issue.row)
    // Quantities in braces are the geometry's, which does not know the setting.
    const message = issue.message.includes('{') ? localText(issue.message, this.system) : issue.message
    const whole: RowIssue = { ...issue, line, message: withPlace(message, issue.row, line, issue.field), ...(raw !== undefined && { raw }) }
    const shown = this.shown[issue.severity]
    if (shown.length < SHOWN) shown.push(whole)
    this.waiting.push(whole)
    if (this.keepAll) this.all.push(whole)
  }

  addAll(issues: readonly Issue[], rawOf: (row: number) => string | undefined): void {
    for (const issue of issues) this.add(issue, rawOf(issue.row))
  }

  /** A log of its own for work that may be rolled back; `join` takes it over. */
  fork(): IssueLog {
    return new IssueLog(this.scope, this.importId, this.lineOf, this.system)
  }

  join(fork: IssueLog): void {
    for (const issue of fork.waiting) this.add(issue, issue.raw)
  }

  /** Whether so much waits that it is worth a COPY of its own. */
  get isDue(): boolean {
    return this.waiting.length >= BATCH
  }

  /** Writes what waits, once it is worth a COPY of its own. */
  async flush(tx: Tx, atLeast = BATCH): Promise<void> {
    if (this.waiting.length === 0 || this.waiting.length < atLeast) return
    const issues = this.waiting
    this.waiting = []
    await insertIssues(this.scope, tx, this.importId, issues)
  }

  /** How many issues there are of a code, of one field where it is named. */
  countOf(code: string, field?: string): number {
    return this.counts.get(keyOf(code, field)) ?? 0
  }

  /** What is to be done about every issue of a code, where only the whole file tells. */
  async setRemedy(tx: Tx, ofMost: FileRemedy): Promise<void> {
    for (const issue of [...this.shown.error, ...this.shown.warning, ...this.waiting, ...this.all]) issue.remedy = remedyOf(issue, [ofMost])
    await setIssueRemedy(this.scope, tx, this.importId, ofMost)
  }

  /** For the report: errors first. */
  first(): RowIssue[] {
    return [...this.shown.error, ...this.shown.warning].slice(0, SHOWN)
  }
}
