import type { ImportReport, UrgentReading } from '@/lib/contract/contract'
import { formatPercent } from '@/lib/units/format'

const SHOWN_ISSUES = 20

/** An import's report as sentences for a terminal. What is urgent comes first, for it cannot wait for the rest. */
export function reportText(fileName: string, report: ImportReport, { dryRun = false, again = false } = {}): string {
  const lines = [urgentLines(report.urgent), countLines(fileName, report), noteLines(report, dryRun, again), issueLines(report)]
  return lines.flat().join('\n')
}

function urgentLines(urgent: UrgentReading[]): string[] {
  if (urgent.length === 0) return []
  const many = urgent.length === 1 ? '1 reading is' : `${urgent.length} readings are`
  return [`CALL THE CONTROL ROOM NOW: ${many} urgent or critical by the reading's own numbers.`, ...urgent.map(urgentLine), '']
}

function urgentLine(reading: UrgentReading): string {
  const where = reading.placement_state === 'placed' && reading.position_text
    ? `${reading.circuits[0]?.circuit ?? ''} ${reading.position_text}`.trim()
    : `not placed yet; ${candidates(reading)}`
  const evidence = reading.ratio === null ? 'by sight' : `ratio ${reading.ratio.toFixed(2)}`
  return `  ${reading.class}, ${evidence}: reading ${reading.reading_key} of ${reading.survey}, ${where}`
}

function candidates({ circuits }: UrgentReading): string {
  if (circuits.length === 0) return 'no circuit is in reach'
  return `it may be on ${circuits.map(({ circuit, probability }) => (
    probability === null ? circuit : `${circuit} (${formatPercent(probability)})`)).join(' or ')}`
}

function countLines(fileName: string, report: ImportReport): string[] {
  const counts = [
    report.kind === 'readings' ? `${report.placed} placed` : '',
    report.review > 0 ? `${report.review} for review` : '',
    report.new_splices > 0 ? `${report.new_splices} new splices` : '',
    report.already_held > 0 ? `${report.already_held} held already` : '',
  ].filter(Boolean)
  return [
    `${fileName}: ${report.rows} rows of ${report.kind}, ${report.read} read, ${report.rejected} rejected.`,
    ...counts.length > 0 ? [`  ${counts.join(', ')}.`] : [],
  ]
}

function noteLines({ import_id: id }: ImportReport, dryRun: boolean, again: boolean): string[] {
  if (dryRun) return ['  This was a dry run: nothing was stored.']
  return again ? [`  The same file was imported before, as import ${id}: nothing new was stored, and this is its report.`] : []
}

// Most messages name their row and field themselves.
function sentence({ row, field, message }: ImportReport['issues'][number]): string {
  return message.startsWith('Row ') ? message : `Row ${row}${field === null ? '' : `, ${field}`}: ${message}`
}

function issueLines({ issues, issue_count: total, import_id: id }: ImportReport): string[] {
  const shown = issues.slice(0, SHOWN_ISSUES)
  const rest = total - shown.length
  return [
    ...shown.map((issue) => `  ${issue.severity === 'error' ? 'rejected' : 'look at'}: ${sentence(issue)} ${issue.remedy}`),
    ...rest > 0 ? [`  … and ${rest} more, listed in the product under Intake, import ${id}.`] : [],
  ]
}
