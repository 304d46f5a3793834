import type { ImportReport } from '@/lib/contract/contract'
import type { UrgentReading } from '@/lib/contract/urgent'
import { noticeDoubt, tableSentence } from '@/lib/intake/report/conductor-doubt'
import { noCircuitWords, strangeCircuit } from '@/lib/intake/report/no-circuit'
import { withPlace } from '@/lib/intake/report/place'
import { perhapsAlso, placedText } from '@/lib/intake/report/placed-doubt'
import { formatNumber, formatRatio, formatSure } from '@/lib/units/format'
import { formatDateTime } from '@/lib/units/time'

const SHOWN_OF_A_KIND = 5
const SHOWN_COLUMNS = 20

interface Circumstances {
  dryRun?: boolean
  /** The same file was imported before. */
  again?: boolean
  /** Nobody said what the rows are. */
  guessed?: boolean
  /** Where the rejected rows were written. */
  rejectedFile?: string
  /** Where it was imported to, in words. */
  database?: string
  /** IANA zone for when somebody was told; UTC where absent. */
  timeZone?: string
}

/** An import's report as sentences for a terminal. What is urgent comes first, for it cannot wait for the rest. */
export function reportText(fileName: string, report: ImportReport, { dryRun = false, again = false, guessed = false, rejectedFile, timeZone, database }: Circumstances = {}): string {
  const lines = [
    urgentLines(report, { again, timeZone }), countLines(fileName, report), guessed ? ['  Kind guessed from its columns; --kind says otherwise.'] : [], againLines(report, dryRun, again), report.notes.map((note) => `  ${note}`),
    ignoredLines(report, dryRun), issueLines(report), waitingLines(report, dryRun), whereLines(report, dryRun, rejectedFile, database),
  ]
  return lines.flat().join('\n')
}

function urgentLines({ urgent, met_notices: met = [] }: ImportReport, { again = false, timeZone = 'UTC' }: Circumstances): string[] {
  const waiting = urgent.filter((one) => one.acknowledged_at === null)
  const told = urgent.filter((one) => one.acknowledged_at !== null)
  const whose = waiting.length === 1 ? 'its' : 'their'
  const by = waiting.every((one) => one.basis !== 'assessment') ? `by ${whose} own numbers` : `by ${whose} own numbers or with what else is known of the splice`
  const call = again
    ? `ALREADY ANNOUNCED, NOT YET TOLD: call the control room now where nobody has. ${things(waiting)} urgent or critical ${by}.`
    : `CALL THE CONTROL ROOM NOW: ${things(waiting)} urgent or critical ${by}.${metWords(waiting, met)}`
  return [
    ...waiting.length === 0 ? [] : [call, ...waiting.flatMap((one) => urgentLine(one, timeZone)), ''],
    ...told.length === 0 ? [] : [`ALREADY ANNOUNCED, and the control room was told of ${told.length === 1 ? 'it' : 'them'}:`, ...told.flatMap((one) => urgentLine(one, timeZone)), ''],
  ]
}

/** Whether this import is the first to announce them. */
function metWords(waiting: UrgentReading[], met: readonly number[]): string {
  const before = waiting.filter((one) => met.includes(one.notice_id)).length
  if (before === 0) return ''
  return before === waiting.length ? ` Announced with an earlier import, and nobody noted a call.` : ` ${formatNumber(before, 0)} of them announced with an earlier import, and nobody noted a call.`
}

/** '1 row', '60,000 rows'. */
const many = (n: number, one: string, more = `${one}s`): string => `${formatNumber(n, 0)} ${n === 1 ? one : more}`

/** '2 readings and 1 row not read are'. */
function things(urgent: UrgentReading[]): string {
  const rows = urgent.filter((one) => one.reading_id === null).length
  const readings = urgent.length - rows
  const parts = [
    readings === 0 ? '' : many(readings, 'reading'), rows === 0 ? '' : many(rows, 'row that was not read', 'rows that were not read'),
  ].filter(Boolean)
  return `${parts.join(' and ')} ${urgent.length === 1 ? 'is' : 'are'}`
}

function urgentLine(notice: UrgentReading, timeZone: string): string[] {
  const { not_read: unread, provisional, by_table: table } = notice
  const where = notice.placement_state === 'placed' && notice.position_text
    ? `${notice.circuits[0]?.circuit ?? ''}${perhapsAlso(notice)} ${placedText(notice.position_text, notice)}`.trim()
    : `not placed yet; ${[positionWords(notice), candidates(notice)].filter(Boolean).join('; ')}`
  const evidence = notice.ratio === null ? 'by sight' : `ratio ${formatRatio(notice.ratio)}${table ? ' by the table\'s conductor, not measured' : ''}`
  const what = notice.reading_id === null && unread
    ? `row ${unread.row} of ${unread.file_name}, not read${notice.reading_key === null ? '' : ` (reading ${notice.reading_key} of ${notice.survey})`}`
    : `reading ${notice.reading_key ?? ''} of ${notice.survey}`
  const told = notice.acknowledged_at === null ? '' : `; told ${notice.told_to ? `${notice.told_to}, ` : ''}${formatDateTime(Date.parse(notice.told_at ?? notice.acknowledged_at), timeZone)}, noted by ${notice.acknowledged_by ?? 'somebody'}`
  return [
    `  ${notice.class}, ${evidence}: ${what}, ${where}${told}`,
    ...notice.reading_id === null && unread ? unread.why.map((why) => `    Not read: ${why}`) : [],
    ...provisional ? [`    ${noticeDoubt(provisional)}`] : [],
    ...table ? [`    ${tableSentence(table)}`] : [],
  ]
}

/** What it says itself of its place, or the likeliest span. */
const positionWords = ({ position_text: position, position_basis: basis }: UrgentReading): string =>
  (position === null ? '' : basis === 'nearest' ? `nearest is ${position}` : `it says ${position}`)

function candidates(notice: UrgentReading): string {
  const { circuits } = notice
  if (circuits.length === 0) return `it ${noCircuitWords(notice, true)}`
  const strange = strangeCircuit(notice)
  return `${strange === null ? '' : `it names circuit ${strange}; `}it may be on ${circuits.map(({ circuit, probability }) => (
    probability === null ? circuit : `${circuit} (${formatSure(probability)})`)).join(' or ')}`
}

function countLines(fileName: string, report: ImportReport): string[] {
  const counts = [
    report.kind === 'readings' ? `${formatNumber(report.placed, 0)} placed` : '',
    report.review > 0 ? `${formatNumber(report.review, 0)} for review` : '',
    report.new_splices > 0 ? many(report.new_splices, 'new splice') : '',
    report.already_held > 0 ? `${formatNumber(report.already_held, 0)} held already` : '',
    report.repeated ? `${formatNumber(report.repeated, 0)} the same as another row` : '',
  ].filter(Boolean)
  return [
    `${fileName}: ${many(report.rows, 'row')} of ${report.kind}, ${formatNumber(report.read, 0)} read, ${formatNumber(report.rejected, 0)} rejected.`,
    ...counts.length > 0 ? [`  ${counts.join(', ')}.`] : [],
    ...changeLines(report),
  ]
}

function changeLines({ class_changes: changed }: ImportReport): string[] {
  if (!changed || changed.total === 0) return []
  const each = changed.changes.map(({ from, to, count }) => `${formatNumber(count, 0)} from ${from} to ${to}`)
  return [`  Classes on show: ${each.join(', ')}.`]
}

function againLines({ import_id: id }: ImportReport, dryRun: boolean, again: boolean): string[] {
  if (dryRun) return ['  This was a dry run: nothing was stored.']
  return again ? [`  The same file was imported before, as import ${id}: nothing new was stored, and this is its report.`] : []
}

function ignoredLines({ ignored_columns: columns, kind, import_id: id, read }: ImportReport, dryRun: boolean): string[] {
  if (columns.length === 0) return []
  const rest = columns.length - SHOWN_COLUMNS
  return [
    `  ${columns.length === 1 ? '1 column was' : `${columns.length} columns were`} not understood and not read:`,
    ...columns.slice(0, SHOWN_COLUMNS).map(({ column, samples }) => `    ${column}: ${samples.length === 0 ? 'empty' : samples.map(short).join(', ')}`),
    ...rest > 0 ? [`    … and ${formatNumber(rest, 0)} more`] : [],
    `  ${dryRun || read === 0 ? 'What' : `Undo this import first (--undo ${id}); then what`} matters is mapped by --map FIELD=COLUMN (npm run import -- --describe ${kind} lists the fields), or under Intake.`,
  ]
}

const short = (cell: string): string => (cell.length > 40 ? `${cell.slice(0, 40)}…` : cell).replace(/\s+/g, ' ')

type Issues = ImportReport['issues']

/**
 * A fault that every row has must not hide the others: a few of each kind, then how many more there are like it. What is said of the whole
 * file comes first, then rejected rows as they stand in it, then warnings.
 */
function issueLines(report: ImportReport): string[] {
  const { issues, issue_count: total } = report
  const asked = issues.filter((issue) => !asksNothing(issue, report))
  const kinds = new Map<string, Issues>()
  for (const issue of asked.toSorted((a, b) => a.row - b.row)) {
    const key = issue.row === 0 ? `${issue.row} ${issue.message}` : `${issue.severity} ${issue.code} ${issue.field}`
    kinds.set(key, [...kinds.get(key) ?? [], issue])
  }
  const shown = [...kinds.values()].flatMap((like) => {
    const rest = like.length - SHOWN_OF_A_KIND
    const first = like.slice(0, rest === 1 ? like.length : SHOWN_OF_A_KIND)
    return first.map((issue, i) => (
      { issue, lines: [issueLine(issue), ...i === first.length - 1 && rest > 1 ? [`    … and ${formatNumber(rest, 0)} more rows like it.`] : []] }))
  })
  const rank = ({ row, severity }: Issues[number]) => (row === 0 ? 0 : severity === 'error' ? 1 : 2)
  const lines = shown.toSorted((a, b) => rank(a.issue) - rank(b.issue) || a.issue.row - b.issue.row).flatMap((one) => one.lines)
  const unseen = total - issues.length
  return [...lines, ...unseen > 0 ? [`  … and ${formatNumber(unseen, 0)} more.`] : [], ...assumedLines(issues.filter((issue) => asksNothing(issue, report)))]
}

/** Of a file without a fault, what was taken for granted and is likely right. */
const asksNothing = ({ row, code, remedy }: Issues[number], { rejected }: ImportReport): boolean =>
  rejected === 0 && row === 0 && code === 'assumed' && remedy.startsWith('Nothing needs to be done')

function assumedLines(assumed: Issues): string[] {
  if (assumed.length === 0) return []
  return [`  Taken for granted; the report says what to do where it is wrong: ${assumed.map(({ message }) => message.replace(/^File: /, '').replace(/\.$/, '')).join('; ')}.`]
}

const issueLine = ({ severity, row, line, field, message, remedy }: ImportReport['issues'][number]): string =>
  `  ${severity === 'error' ? 'rejected' : 'warning'}: ${withPlace(message, row, line, field)} ${remedy}`

/** Which rows wait for a person, why, and where each may belong. */
function waitingLines({ import_id: id, review, waiting = [] }: ImportReport, dryRun: boolean): string[] {
  if (waiting.length === 0) return []
  const rest = review - waiting.length
  return [
    `  For review${rest > 0 ? `, the first ${waiting.length}` : ''}:`,
    ...waiting.map(({ row, line, reason, alike, candidates }) => {
      const places = candidates.map((one) => `${one.circuit}${one.position_text === '' ? '' : ` ${one.position_text}`}${alike ? '' : ` (${formatSure(one.probability)})`}`)
      return `    ${withPlace(reason, row, line)}${places.length === 0 ? '' : ` It may be on ${places.join(' or ')}.`}`
    }),
    ...rest > 0 ? [`    … and ${formatNumber(rest, 0)} more${dryRun ? '' : `: all that wait are at /intake/review, all readings of this import at /api/v1/readings?import=${id} of the server`}.`]
      : dryRun ? [] : ['    They are settled at /intake/review of the server.'],
  ]
}

/** Where the report can be read again, and the rejected rows fetched. */
function whereLines({ import_id: id, rejected }: ImportReport, dryRun: boolean, rejectedFile?: string, database?: string): string[] {
  const [rows, are, them] = [many(rejected, 'rejected row'), ...rejected === 1 ? ['is', 'it'] : ['are', 'them']]
  const where = rejectedFile ? `in ${rejectedFile}` : `at /api/v1/imports/${id}/rejected.csv (--rejected PATH writes ${them} to a file)`
  return [
    ...database !== undefined && !dryRun ? [`  Database: ${database}.`] : [],
    `  ${dryRun ? 'Dry run' : 'Import'} ${id}: its report is at /intake/${id} and /api/v1/imports/${id} of the server.`
      + (dryRun ? ' Dry runs are numbered with imports; the import itself gets a number of its own.' : ` --undo ${id} takes it back.`),
    ...rejected > 0 ? [`  Its ${rows} ${are} ${where}.${dryRun ? '' : ` Correct ${them} there and import that file.`}`] : [],
  ]
}
