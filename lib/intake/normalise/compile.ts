import { CellReport, shown } from '../cells/cell-report'
import type { DateSetting } from '../cells/instant'
import type { ReaderSetting } from '../cells/reader'
import { ZoneClock } from '../cells/zone'
import { fieldLabel } from '../kinds/labels'
import { guessMapping } from '../mapping/guess'
import type { FileNote, NormaliseContext, Normaliser, RowAlarm, RowOutcome } from '../outcome'
import type { ReadingRecord } from '../reading'
import { RowLines } from '../report/place'
import { otherColumn } from '../report/remedies'
import type { ImportKind, Mapping, RawRow, RowIssue } from '../types'
import { Assumptions } from './assumptions'
import { type ColumnPlan, planColumns, type Plans, textOf, valuesOf } from './columns'
import { alarmIssue, alarmOf } from './alarm'
import { newDraft } from './drafts'
import { type FinishWith, finishRow } from './finish'
import { contentKeys } from './reading'
import { SeenTable } from './seen-table'
import { UnreadOhms } from './unread-ohms'

/** Said first: what is undated can never be shown to be later than anything. */
const UNTIMED: FileNote = {
  message: 'No column gives the time of the readings: undated, they clear no class, show no growth and count as old. Map the columns of their date and time.',
  remedy: otherColumn('the columns of their date and time', 'taken_at'),
}

const AS_SAID = 'Nothing needs to be done where that is right; otherwise undo this import, and import the file again without it.'

class FileNormaliser implements Normaliser {
  private readonly report = new CellReport()
  private readonly assumptions = new Assumptions()
  private readonly dates: DateSetting
  private readonly setting: ReaderSetting
  private readonly plans: Plans
  private readonly work: FinishWith
  private readonly lines = new RowLines()
  private pointPlans: Plans | null = null
  private readonly unreadOhms: UnreadOhms | null

  constructor(private readonly mapping: Mapping, private readonly columns: readonly string[], context: NormaliseContext) {
    const zoneName = mapping.timeZone ?? context.timeZone
    this.dates = {
      order: mapping.dateOrder ?? context.dateOrder ?? null,
      zone: new ZoneClock(zoneName),
      zoneName,
      nowMs: context.nowMs,
      assume: (code, row) => this.assumptions.add(code, row),
    }
    this.setting = {
      dates: this.dates, decimalComma: mapping.decimalComma ?? context.decimalComma, phaseLetters: context.phaseLetters,
      assume: (words, remedy, row) => this.assumptions.say(words, remedy, row),
    }
    this.plans = planColumns(mapping, columns, this.setting)
    this.unreadOhms = UnreadOhms.of(mapping, columns, context)
    this.work = {
      report: this.report, assumptions: this.assumptions, seen: new SeenTable(), moments: new SeenTable(), repeats: new Map(), lines: this.lines, context, survey: mapping.survey ?? null, zoneName,
      contentKeys: contentKeys(new Set(this.plans.columns.map((plan) => plan.field.key))),
    }
  }

  row(raw: RawRow | RowIssue): RowOutcome {
    if (raw.line !== undefined) this.lines.add(raw.row, raw.line)
    if ('severity' in raw) return this.unreadable(raw)
    const { report } = this
    report.startRow(raw.row, raw.line)
    const asPoint = this.mapping.kind === 'lines' && raw.geometry?.type === 'Point'
    const plans = asPoint ? (this.pointPlans ??= this.planPoints()) : this.plans
    const draft = newDraft(plans.kind, raw)
    this.fill(plans, raw, draft as unknown as Record<string, unknown>)
    if (raw.raw.includes('\uFFFD')) this.damaged()
    const outcome = finishRow(draft, raw, this.work)
    return this.unreadOhms === null || (outcome.state === 'rejected' && outcome.alarm) ? outcome : this.withUnreadOhms(outcome, raw, this.unreadOhms)
  }

  private withUnreadOhms(outcome: RowOutcome, raw: RawRow, ohms: UnreadOhms): RowOutcome {
    if (outcome.state === 'duplicate') return outcome
    const alarm = ohms.alarmOf(raw, outcome.issues.flatMap(({ severity, message }) => (severity === 'error' ? [message] : [])))
    if (!alarm) return outcome
    const { code, value, message, remedy } = alarmIssue(alarm)
    const { report } = this
    // A row that is read as something else is read; the numbers beside it are not.
    report.about(outcome.state === 'rejected' ? 'error' : 'warning', null, code, value, message, remedy)
    return { ...outcome, issues: report.issues, alarm }
  }

  /** Nothing of it is read; but what stands in its lines may be urgent. The worst of them speaks for the row. */
  private unreadable({ lines = [], ...issue }: RowIssue): RowOutcome {
    const outcome: RowOutcome = { state: 'rejected', row: issue.row, raw: issue.raw ?? '', issues: [{ ...issue, severity: 'error' }] }
    const alarm = this.mapping.kind === 'readings' && lines.length > 0 ? this.worstOf(lines, issue) : undefined
    if (!alarm) return outcome
    const { report } = this
    report.startRow(issue.row, issue.line)
    const { severity, code, value, message, remedy } = alarmIssue(alarm)
    report.about(severity, null, code, value, message, remedy)
    return { ...outcome, issues: [...outcome.issues, ...report.issues], alarm }
  }

  private worstOf(lines: readonly RawRow[], { row, message }: RowIssue): RowAlarm | undefined {
    const { policy, factsOf } = this.work.context
    // Of its own, so that no line counts as seen or as assumed of the file.
    const reader = new FileNormaliser(this.mapping, this.columns, this.work.context)
    const found = lines.flatMap((line) => {
      const read = reader.row(line)
      const alarm = read.state === 'rejected' ? read.alarm : read.state === 'read' ? alarmOf(read.record as ReadingRecord, [], policy, factsOf) : undefined
      return alarm ? [{ line: line.line, alarm }] : []
    })
    const rank = ({ alarm }: (typeof found)[number]) => (alarm.class === 'critical' ? 1e9 : 0) + (alarm.ratio ?? 0)
    const worst = found.toSorted((a, b) => rank(b) - rank(a))[0]
    if (!worst) return undefined
    const others = found.length - 1
    const which = `So line ${worst.line} says${others === 0 ? '' : `, and ${others} other ${others === 1 ? 'line' : 'lines'} of the row ${others === 1 ? 'is' : 'are'} urgent or critical as well`}.`
    return { ...worst.alarm, row, why: [message, which, ...worst.alarm.why], inLine: which }
  }

  lineOf(row: number): number | undefined {
    return this.lines.lineOf(row)
  }

  forget(): void {
    this.work.seen = new SeenTable()
    this.work.moments = new SeenTable()
    this.work.repeats.clear()
  }

  notes(): FileNote[] {
    const untimed = this.mapping.kind === 'readings' && !this.plans.columns.some(({ field }) => field.key === 'takenAt')
    return [...(untimed ? [UNTIMED] : []), ...this.assumptions.notes(this.dates.order ?? 'mdy', { name: this.dates.zoneName, isSaid: this.mapping.timeZone !== undefined })]
  }

  private fill(plans: Plans, raw: RawRow, target: Record<string, unknown>): void {
    const values = valuesOf(raw, this.columns)
    for (const plan of plans.columns) {
      const text = textOf(plan, values)
      if (text !== '') this.readCell(plan, text, target)
      else if (plan.always !== '') this.readAlways(plan, raw.row, target)
      else if (plan.field.required) this.missing(plan.field.name)
    }
    for (const field of plans.unmapped) this.missing(field)
  }

  private readCell(plan: ColumnPlan, text: string, target: Record<string, unknown>): void {
    if (plan.repeats && text === plan.lastText) {
      if (plan.lastValue !== null) target[plan.field.key] = plan.lastValue
      return
    }
    const { report } = this
    const before = report.issues.length
    report.startCell(plan.field, plan.columns[0]!)
    const value = plan.read(text, report)
    if (value !== undefined && value !== null) target[plan.field.key] = value
    else if (value === null && plan.field.required) this.missing(plan.field.name)
    if (plan.repeats && report.issues.length === before) {
      plan.lastText = text
      plan.lastValue = value
    }
  }

  private readAlways(plan: ColumnPlan, row: number, target: Record<string, unknown>): void {
    this.readCell(plan, plan.always, target)
    const { label } = fieldLabel(this.mapping.kind, plan.field.name)
    this.assumptions.say(`${label} is '${shown(plan.always)}' in rows that do not say it, as was set at the import`, AS_SAID, row, true)
  }

  private missing(field: string): void {
    this.report.about(
      'error', field, 'required', '', `'' is empty, and every row needs ${field}.`, `Fill ${field}, or map another column to it.`
    )
  }

  private damaged(): void {
    this.report.about(
      'warning', null, 'damaged-text', '\uFFFD', 'the row holds \uFFFD, the mark of a character that was lost.',
      'Export the file again as UTF-8, or correct the names by hand.',
    )
  }

  /** Point features among lines name structures, by the headers of a structures file. */
  private planPoints(): Plans {
    const guess = guessMapping(this.columns, [], 'structures')
    const shared = this.mapping.columns.filter((column) => column.field === 'circuit' || column.field === 'section')
    const columns = [
      ...shared, ...guess.columns.filter((column) => !shared.some((mine) => mine.column === column.column || mine.field === column.field)),
    ]
    return planColumns({ ...guess, columns }, this.columns, this.setting)
  }
}

/**
 * Makes a mapping ready for the rows of one file.
 * @throws RangeError where the mapping names a unit that does not fit its field, or it or the context a time zone that does not
 *   exist: ask mappingProblems first
 */
export function compileMapping<Kind extends ImportKind>(
  mapping: Mapping & { kind: Kind }, columns: readonly string[], context: NormaliseContext,
): Normaliser<Kind> {
  return new FileNormaliser(mapping, columns, context) as unknown as Normaliser<Kind>
}

/** One row by itself: what it would become. Repeats within a file are for `compileMapping` to see. Never throws. */
export function normaliseRow<Kind extends ImportKind>(
  kind: Kind, mapping: Mapping, raw: RawRow, context: NormaliseContext
): RowOutcome<Kind> {
  return compileMapping({ ...mapping, kind }, Object.keys(raw.cells), context).row(raw)
}
