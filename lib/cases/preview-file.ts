import type { ImportPreview, PreviewRow } from '@/lib/contract/intake'
import { FORMATS, FileRefusal, remediesOfMost, remedyOf, type ImportKind, type IntakeRecord, type Mapping, type RawRow, type ReadingRecord, type RowAlarm, type RowIssue, type RowOutcome } from '@/lib/intake'
import { withPlace } from '@/lib/intake/report/place'
import { conductorIssue } from '@/lib/intake/report/conductor-doubt'
import { currentPolicy } from '@/lib/store/policies'
import { lengthTextOf, positionTextOf } from '@/lib/store/position'
import { reasonSentenceOf } from '@/lib/store/reason-sentence'
import type { Scope } from '@/lib/store/scope'
import { getSettings } from '@/lib/store/settings'
import { storeState } from '@/lib/store/state'
import { database } from '@/lib/store/transaction'
import { localText } from '@/lib/units/local-text'
import { noRows, samplesOf, unitOfField } from './importing/file-facts'
import { MappingRefusal } from './importing/mapping-refusal'
import { openMapped, type OpenedFile } from './importing/open-mapped'
import { loadStoredLines } from './network/stored-lines'
import { courseOf } from './preview/course'
import { describe, type Becomes } from './preview/describe'
import { heldAlready, notReadAgain } from './preview/held-already'
import { placeRows } from './preview/place-rows'
import { readOtherwiseIssue } from './readings/read-otherwise'
import { surveyOfFile } from './survey-of-file'

/** So much of a file is enough to show what it would become. */
export const PREVIEW_BYTES = 1 << 20
const ROWS = 50

export interface FileToPreview {
  fileName: string
  /** Undefined: the kind that its columns fit best. */
  kind?: ImportKind
  mapping?: Mapping | null
  survey?: string | null
  /** Guess anew, whatever was said of an earlier file with the same columns. */
  fresh?: boolean
}

/** What the columns of a file are taken for and what each of its first rows would become. Nothing is stored. */
export async function previewFile(scope: Scope, file: FileToPreview, head: Uint8Array): Promise<ImportPreview> {
  const isCut = head.byteLength >= PREVIEW_BYTES
  const [settings, policy, state] = await Promise.all([getSettings(scope), currentPolicy(scope), storeState(scope)])
  const source = { fileName: file.fileName, open: () => once(head) }
  const options = { kind: file.kind, mapping: file.mapping ?? null, fresh: file.fresh, settings, networkBbox: state.network_bbox, nowMs: Date.now() }
  let opened: OpenedFile
  try {
    opened = await openMapped(scope, source, options, database())
  } catch (e) {
    if (e instanceof FileRefusal) return refused(file, head, e)
    throw e
  }
  const { raws, refusal = isCut || opened.first.length > 0 ? undefined : sentenceOf(noRows()) } = await firstRows(opened, isCut)
  const outcomes = raws.map((raw) => opened.normaliser.row(raw))
  const records = outcomes.flatMap((outcome) => (outcome.state === 'read' ? [outcome.record as IntakeRecord] : []))
  const speech = {
    position: await positionTextOf(scope), sentence: await reasonSentenceOf(scope, database()), policy, survey: file.survey ?? opened.survey ?? surveyOfFile(file.fileName),
  }
  const lines = await loadStoredLines(scope, database())
  const readings = records.filter((record): record is ReadingRecord => record.recordType === 'reading')
  const placed = new Map((readings.length > 0 ? await placeRows(scope, readings, speech) : []).map((row, i) => [readings[i], row]))
  const held = await heldAlready(scope, readings, { name: file.fileName, mapping: opened.mapping, survey: speech.survey, timeZone: settings.time_zone })
  const length = lengthTextOf(settings.unit_system)
  const countOf = (code: string, field?: string) => outcomes.filter(({ issues }) => issues.some((i) => i.code === code && (field === undefined || i.field === field))).length
  const ofMost = remediesOfMost(countOf, outcomes.length, opened.mapping)
  const rows = outcomes.map((outcome, i): PreviewRow => {
    const placedRow = outcome.state === 'read' ? placed.get(outcome.record as ReadingRecord) : undefined
    const doubt = placedRow?.doubt && conductorIssue(placedRow.doubt, outcome.row, unitOfField(opened.mapping, 'conductor_uohm'))
    const line = opened.normaliser.lineOf(outcome.row)
    const doubts = doubt ? [{ ...doubt, line, message: withPlace(doubt.message, doubt.row, line, doubt.field) }] : []
    const reading = outcome.state === 'read' ? outcome.record as ReadingRecord : undefined
    const other = reading && held.otherwise.get(reading)
    const refused = reading && other ? [readOtherwiseIssue(reading, other)].map((issue) => ({ ...issue, line, message: withPlace(issue.message, outcome.row, line) })) : []
    const issues = [...refused, ...outcome.issues, ...doubts].map((issue) => issueJson({ ...issue, message: localText(issue.message, settings.unit_system), remedy: remedyOf(issue, ofMost) }))
    const cells = cellsOf(raws[i])
    if (outcome.state === 'duplicate') return { row: outcome.row, cells, issues, becomes: { state: 'read', text: `The same as row ${outcome.firstRow}` } }
    if (outcome.state === 'rejected') return { row: outcome.row, cells, issues, becomes: { state: 'rejected', text: issues[0]?.message ?? 'It cannot be read.', ...ownClass(outcome) } }
    if (reading && other) return { row: outcome.row, cells, issues, becomes: notReadAgain(reading, other, issues[0]?.message ?? '', placedRow?.becomes) }
    const record = outcome.record as IntakeRecord
    const becomes: Becomes = record.recordType === 'reading'
      ? { state: 'read', text: 'Read', ...placedRow?.becomes, ...held.becomes.get(record) } : describe(record, lines, { position: speech.position, length })
    const course = courseOf(record, lines)
    return { row: outcome.row, cells, issues, becomes: { ...becomes, ...ownClass(outcome), lon: becomes.lon ?? null, lat: becomes.lat ?? null, ...(course && { course }) } }
  })
  const preview: ImportPreview = {
    format: formatOf(file.fileName, head), notes: [...held.notes, ...opened.notes, ...opened.normaliser.notes().map(({ message }) => message)], kind: opened.mapping.kind,
    columns: columnsOf(opened.mapping, raws),
    mapping: { ...opened.mapping, ...(opened.survey !== null && !opened.mapping.survey && { survey: opened.survey }) }, rows,
    ...(opened.asBefore !== null && { as_before: opened.asBefore }),
  }
  return refusal ? { ...preview, refusal } : preview
}

async function* once(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes.subarray(0, PREVIEW_BYTES)
}

type Raw = RawRow | RowIssue

const ownClassOf = (alarm: RowAlarm | undefined): Pick<PreviewRow['becomes'], 'own_class'> => (alarm ? { own_class: alarm.class } : {})
const ownClass = (outcome: RowOutcome) => ownClassOf(outcome.state === 'duplicate' ? undefined : outcome.alarm)

/** The first rows; where the file was cut for the preview its last row is not whole and not shown. */
async function firstRows(opened: OpenedFile, isCut: boolean): Promise<{ raws: Raw[]; refusal?: ImportPreview['refusal'] }> {
  const raws: Raw[] = []
  try {
    raws.push(...opened.first.slice(0, ROWS))
    while (raws.length < ROWS) {
      const next = await opened.rest.next()
      if (next.done) break
      raws.push(next.value)
    }
    if (raws.length === ROWS) return { raws }
  } catch (e) {
    if (!(e instanceof FileRefusal)) throw e
    if (!isCut) return { raws, refusal: sentenceOf(e) }
  }
  return { raws: isCut ? raws.slice(0, -1) : raws }
}

const sentenceOf = ({ code, message, remedy }: FileRefusal): NonNullable<ImportPreview['refusal']> => ({ code, message, remedy })

const formatOf = (fileName: string, head: Uint8Array): string => FORMATS.find((format) => format.sniff(head.subarray(0, 65_536), fileName))?.label ?? 'unknown'

const columnsOf = ({ columns }: Mapping, raws: readonly Raw[]): ImportPreview['columns'] => columns.map(
  ({ column, field, unit, basis }) => ({ column, field, unit: unit ?? null, basis: basis ?? 'none', samples: samplesOf(column, raws) }))

const refused = (file: FileToPreview, head: Uint8Array, e: FileRefusal): ImportPreview => {
  const told = { format: formatOf(file.fileName, head), notes: [], refusal: sentenceOf(e) }
  if (e instanceof MappingRefusal) {
    // What stands in the file is shown all the same, for a person to say what it is.
    const { columns, mapping, sample, alarms } = e.found
    const all = columns.map((column) => mapping.columns.find((one) => one.column === column) ?? { column, field: null })
    const rows = sample.slice(0, ROWS).map(({ row, cells }): PreviewRow => (
      { row, cells, issues: [], becomes: { state: 'rejected', text: 'Not read before its columns are mapped.', lon: null, lat: null, ...ownClassOf(alarms.find((alarm) => alarm.row === row)) } }))
    return { ...told, refusal: { ...sentenceOf(e), message: e.words }, kind: mapping.kind, columns: columnsOf({ ...mapping, columns: all }, sample), mapping: { ...mapping, columns: all }, rows }
  }
  const kind = file.kind ?? file.mapping?.kind ?? 'readings'
  return { ...told, kind, columns: [], mapping: { kind, columns: [] }, rows: [] }
}

const cellsOf = (raw: Raw | undefined): Record<string, string> => (raw && 'cells' in raw ? raw.cells : {})

const issueJson = (i: RowIssue): PreviewRow['issues'][number] => ({
  severity: i.severity, row: i.row, line: i.line ?? null, field: i.field ?? null, value: i.value ?? null, code: i.code, message: i.message, remedy: i.remedy,
})
