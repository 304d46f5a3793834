import { CellReport } from '../cells/cell-report'
import { readerOf } from '../cells/reader'
import { ZoneClock } from '../cells/zone'
import { findField, KINDS } from '../kinds/kinds'
import type { ImportKind, Mapping } from '../types'

/** What names each row apart, so that no two share it. */
const OWN_NAME: Partial<Record<ImportKind, string>> = { readings: 'reading_id', splices: 'splice_id', structures: 'structure' }

/** Why a text cannot stand for a field in every row that says nothing of it, in sentences; empty where it can. */
export function valueProblems({ kind, timeZone }: Mapping, name: string, text: string): string[] {
  const field = findField(kind, name)
  const what = KINDS[kind].label.toLowerCase()
  if (!field) return [`'${name}' is no field of ${what}.`]
  if (name === OWN_NAME[kind]) return [`${name} names each of the ${what} apart, so it cannot be set for all of them.`]
  const report = new CellReport()
  report.startRow(0)
  report.startCell({ ...field, ifBad: undefined, ifOutOfBounds: undefined }, name)
  const dates = { order: null, zone: new ZoneClock('UTC'), zoneName: timeZone ?? 'UTC', nowMs: Number.POSITIVE_INFINITY, assume: () => undefined }
  readerOf(field, undefined, { dates, decimalComma: undefined, assume: () => undefined, phaseLetters: undefined })(text, report)
  return report.issues.filter(({ severity }) => severity === 'error').map(({ message, remedy }) => `${message.replace(/^File, /, '')} ${remedy}`)
}
