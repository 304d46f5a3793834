import { REJECTED_BUT_URGENT } from '@/lib/intake'
import type { ImportReport, UrgentReading } from '@/lib/contract/contract'
import { doubtSentence } from '@/lib/intake/report/conductor-doubt'
import { withPlace } from '@/lib/intake/report/place'
import { formatSure } from '@/lib/units/format'

const SHOWN_ISSUES = 20
const SHOWN_COLUMNS = 20

interface Circumstances {
  dryRun?: boolean
  /** The same file was imported before. */
  again?: boolean
  /** Where the rejected rows were written. */
  rejectedFile?: string
}

/** An import's report as sentences for a terminal. What is urgent comes first, for it cannot wait for the rest. */
export function reportText(fileName: string, report: ImportReport, { dryRun = false, again = false, rejectedFile }: Circumstances = {}): string {
  const lines = [
    urgentLines(report.urgent), rejectedUrgentLines(report), countLines(fileName, report), againLines(report, dryRun, again), report.notes.map((note) => `  ${note}`),
    ignoredLines(report), issueLines(report), whereLines(report, dryRun, rejectedFile),
  ]
  return lines.flat().join('\n')
}

function urgentLines(urgent: UrgentReading[]): string[] {
  if (urgent.length === 0) return []
  const many = urgent.length === 1 ? '1 reading is' : `${urgent.length} readings are`
  const by = urgent.every((one) => one.basis === 'reading') ? "by the reading's own numbers" : 'by its own numbers or with what else is known of its splice'
  return [`CALL THE CONTROL ROOM NOW: ${many} urgent or critical ${by}.`, ...urgent.map(urgentLine), '']
}

function rejectedUrgentLines({ issues }: ImportReport): string[] {
  const rows = issues.filter((issue) => issue.code === REJECTED_BUT_URGENT)
  return rows.length === 0 ? [] : ['CALL THE CONTROL ROOM NOW about rejected rows, which are kept nowhere:', ...rows.map((issue) => `  ${issue.message}`), '']
}

function urgentLine(reading: UrgentReading): string {
  const where = reading.placement_state === 'placed' && reading.position_text
    ? `${reading.circuits[0]?.circuit ?? ''} ${reading.position_text}`.trim()
    : `not placed yet; ${candidates(reading)}`
  const evidence = reading.ratio === null ? 'by sight' : `ratio ${reading.ratio.toFixed(2)}`
  const line = `  ${reading.class}, ${evidence}: reading ${reading.reading_key} of ${reading.survey}, ${where}`
  const { provisional } = reading
  return provisional
    ? `${line}\n    ${doubtSentence({ conductor: provisional.conductor, conductorUohm: provisional.conductor_uohm, expectedUohm: provisional.expected_uohm })}`
    : line
}

function candidates({ circuits }: UrgentReading): string {
  if (circuits.length === 0) return 'no circuit is in reach'
  return `it may be on ${circuits.map(({ circuit, probability }) => (
    probability === null ? circuit : `${circuit} (${formatSure(probability)})`)).join(' or ')}`
}

function countLines(fileName: string, report: ImportReport): string[] {
  const counts = [
    report.kind === 'readings' ? `${report.placed} placed` : '',
    report.review > 0 ? `${report.review} for review` : '',
    report.new_splices > 0 ? `${report.new_splices} new ${report.new_splices === 1 ? 'splice' : 'splices'}` : '',
    report.already_held > 0 ? `${report.already_held} held already` : '',
  ].filter(Boolean)
  return [
    `${fileName}: ${report.rows} ${report.rows === 1 ? 'row' : 'rows'} of ${report.kind}, ${report.read} read, ${report.rejected} rejected.`,
    ...counts.length > 0 ? [`  ${counts.join(', ')}.`] : [],
  ]
}

function againLines({ import_id: id }: ImportReport, dryRun: boolean, again: boolean): string[] {
  if (dryRun) return ['  This was a dry run: nothing was stored.']
  return again ? [`  The same file was imported before, as import ${id}: nothing new was stored, and this is its report.`] : []
}

function ignoredLines({ ignored_columns: columns, kind }: ImportReport): string[] {
  if (columns.length === 0) return []
  const rest = columns.length - SHOWN_COLUMNS
  return [
    `  ${columns.length === 1 ? '1 column was' : `${columns.length} columns were`} not understood and not read:`,
    ...columns.slice(0, SHOWN_COLUMNS).map(({ column, samples }) => `    ${column}: ${samples.length === 0 ? 'empty' : samples.map(short).join(', ')}`),
    ...rest > 0 ? [`    … and ${rest} more`] : [],
    `  What matters is mapped by --map FIELD=COLUMN (npm run import -- --describe ${kind} lists the fields), or under Intake.`,
  ]
}

const short = (cell: string): string => (cell.length > 40 ? `${cell.slice(0, 40)}…` : cell).replace(/\s+/g, ' ')

function issueLines({ issues, issue_count: total }: ImportReport): string[] {
  const ofFile = issues.filter((issue) => issue.row === 0)
  const shown = [...ofFile, ...issues.filter((issue) => issue.row !== 0)].slice(0, SHOWN_ISSUES)
  const rest = total - shown.length
  return [
    ...shown.map(({ severity, row, line, field, message, remedy }) => (
      `  ${severity === 'error' ? 'rejected' : 'warning'}: ${withPlace(message, row, line, field)} ${remedy}`)),
    ...rest > 0 ? [`  … and ${rest} more.`] : [],
  ]
}

/** Where the report can be read again, and the rejected rows fetched. */
function whereLines({ import_id: id, rejected }: ImportReport, dryRun: boolean, rejectedFile?: string): string[] {
  const [rows, are, them] = rejected === 1 ? ['1 rejected row', 'is', 'it'] : [`${rejected} rejected rows`, 'are', 'them']
  const where = rejectedFile ? `in ${rejectedFile}` : `at /api/v1/imports/${id}/rejected.csv (--rejected PATH writes ${them} to a file)`
  return [
    `  Import ${id}: its report is at /intake/${id} and /api/v1/imports/${id} of the server.${dryRun ? '' : ` --undo ${id} takes it back.`}`,
    ...rejected > 0 ? [`  Its ${rows} ${are} ${where}. Correct ${them} there and import that file.`] : [],
  ]
}
