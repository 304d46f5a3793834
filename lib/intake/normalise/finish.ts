import { type CellReport, shown } from '../cells/cell-report'
import { liesAhead } from '../cells/instant'
import type { NormaliseContext, RowAlarm, RowOutcome } from '../outcome'
import type { IntakeRecord } from '../records'
import type { ReadingDraft } from '../reading'
import { placeWords, type RowLines } from '../report/place'
import { unknownConductor } from '../report/unknown-conductor'
import type { RawRow } from '../types'
import { raiseForRejected } from './alarm'
import type { Assumptions } from './assumptions'
import { type RecordDraft, settleSplice, settleStructure } from './drafts'
import { piecesOf, pointOf } from './geometry'
import { type Identity, identityOf, plannedFlow } from './identity'
import { contentBytes, type ContentKey, nameBytes, nthBytes, settleReading, warnOfNoConductor } from './reading'
import type { SeenTable } from './seen-table'

export interface FinishWith {
  report: CellReport
  assumptions: Assumptions
  seen: SeenTable
  /** What was measured on which splice at which second, to tell rows that contradict each other. */
  moments: SeenTable
  /** How often a reading was met that nothing tells apart from an earlier one, by its key; only of those that were met again. */
  repeats: Map<string, number>
  lines: RowLines
  context: NormaliseContext
  /** Fields that the content hash of a reading is made of. */
  contentKeys: readonly ContentKey[]
  /** IANA zone of times without an offset. */
  zoneName: string
  /** Survey of rows that name none. */
  survey: string | null
}

/** Rules across a row's fields, then the outcome: what is not rejected is whole. */
export function finishRow(draft: RecordDraft, raw: RawRow, work: FinishWith): RowOutcome {
  const { report, assumptions, context } = work
  switch (draft.recordType) {
    case 'line': {
      draft.pieces = piecesOf(raw.geometry, report, context.networkBbox) ?? []
      warnOfConductor(draft.conductor, report)
      break
    }
    case 'structure': {
      takePoint(draft, raw, work)
      settleStructure(draft, report, context)
      break
    }
    case 'splice': {
      takePoint(draft, raw, work)
      settleSplice(draft, report, assumptions, context)
      break
    }
    case 'reading': {
      takePoint(draft, raw, work)
      draft.survey ??= work.survey
      settleReading(draft, report, assumptions, context)
      if (!report.rejected) {
        const finished = finishReading(draft, raw, work)
        if (finished.state === 'read') warnOfNoConductor(draft, report, work.contentKeys)
        return finished
      }
      return rejected(raw, report, raiseForRejected(draft, report, context.policy, context.factsOf))
    }
    case 'extent': {
      draft.survey ??= work.survey
      break
    }
    case 'load': {
      refuseAhead(draft, work)
      break
    }
    case 'phasing':
    case 'crossing': break
  }
  return report.rejected ? rejected(raw, report) : outcome(draft, raw, work, identityOf(draft, context.hash))
}

function warnOfConductor(written: string | null, report: CellReport): void {
  const unknown = written === null ? null : unknownConductor(shown(written))
  if (unknown) report.about('warning', 'conductor', 'unknown-conductor', written!, unknown.message, unknown.remedy)
}

/** Only what is planned lies ahead. */
function refuseAhead({ takenAt, quality }: Extract<RecordDraft, { recordType: 'load' }>, { report, context, zoneName }: FinishWith): void {
  if (takenAt === null || plannedFlow(quality) !== null || !liesAhead(takenAt.getTime(), context.nowMs)) return
  report.about(
    'error', 'taken_at', 'time-in-future', takenAt.toISOString(), `${takenAt.toISOString()} lies in the future, and what was carried lies behind.`,
    `Correct the date in taken_at: its year, the order of day and month, or the zone (${zoneName}). Where the current is planned, write expected-peak or post-contingency in quality.`,
  )
}

const rejected = (raw: RawRow, report: CellReport, alarm?: RowAlarm): RowOutcome =>
  ({ state: 'rejected', row: raw.row, raw: raw.raw, issues: report.issues, ...(alarm && { alarm }) })

/** Columns of coordinates come first; the feature's own point fills in where they say nothing. */
function takePoint(draft: { lon: number | null; lat: number | null }, raw: RawRow, { report, assumptions }: FinishWith): void {
  if (draft.lon !== null || draft.lat !== null) return
  const point = pointOf(raw.geometry, report)
  if (!point) return
  draft.lon = point[0]
  draft.lat = point[1]
  if (raw.geometry?.type === 'Point' && raw.geometry.coordinates.length > 2) assumptions.add('third-coordinate', raw.row)
}

function finishReading(draft: ReadingDraft, raw: RawRow, work: FinishWith): RowOutcome {
  const { context } = work
  draft.contentHash = context.hash(contentBytes(draft, work.contentKeys))
  const own = draft.readingKey !== ''
  if (!own) draft.readingKey = draft.contentHash
  const key = own || draft.survey !== null ? context.hash(nameBytes(draft.survey, draft.readingKey)) : draft.contentHash
  warnOfContradiction(draft, work)
  if (own || isOneMoment(draft, work)) return outcome(draft, raw, work, { field: 'reading_id', name: draft.readingKey, key, content: draft.contentHash })
  const earlier = work.seen.see(key, draft.contentHash, raw.row)
  if (earlier) keepAsNth(draft, key, work)
  return { state: 'read', row: raw.row, record: draft as IntakeRecord, issues: work.report.issues }
}

/** A second, and a position or a named splice, say what was measured: the same values there again are the same measurement. A day alone does not. */
const isOneMoment = ({ takenAt, lon, spliceLabel, rowNo }: ReadingDraft, { assumptions }: FinishWith): boolean =>
  takenAt !== null && (lon !== null || spliceLabel !== null) && !assumptions.isLast('midnight', rowNo)

/** One instrument says one thing of a splice in one second: other values there are no repeat, and only a person can tell which was measured. */
function warnOfContradiction(draft: ReadingDraft, { moments, lines, context, assumptions, report }: FinishWith): void {
  const { takenAt, spliceLabel, rowNo } = draft
  if (takenAt === null || spliceLabel === null || assumptions.isLast('midnight', rowNo)) return
  const { survey, circuitLabel, phase, subconductor, kind, repeatNo, instrument, crew } = draft
  const moment = context.hash(JSON.stringify([survey, circuitLabel, spliceLabel, phase, subconductor, kind, repeatNo, instrument, crew, takenAt.getTime()]))
  const { sideAUohm, sideBUohm, conductorUohm, conductorBUohm, spliceTempC, conductorTempC, findings } = draft
  const earlier = moments.see(moment, context.hash(JSON.stringify([sideAUohm, sideBUohm, conductorUohm, conductorBUohm, spliceTempC, conductorTempC, findings])), rowNo)
  if (!earlier || earlier.same) return
  report.about(
    'warning', null, 'contradicts-row', spliceLabel,
    `the row and ${placeWords(earlier.row, lines.lineOf(earlier.row)).toLowerCase()} name the same splice, ${shown(spliceLabel)}, at the same second, with other values: they contradict each other.`,
    'Find out which was measured, and correct or remove the other. Where both were, repeat_no or instrument tells them apart.',
  )
}

/**
 * Rounded values are alike by accident, and what told the rows apart may stand in a column that is not read: the nth such row of a file is
 * the nth reading, and meets itself where the file comes again.
 */
function keepAsNth(draft: ReadingDraft, key: string, { context, repeats, assumptions }: FinishWith): void {
  const nth = (repeats.get(key) ?? 1) + 1
  repeats.set(key, nth)
  draft.contentHash = context.hash(nthBytes(draft.contentHash, nth))
  draft.readingKey = draft.contentHash
  assumptions.say(KEPT, KEPT_REMEDY, draft.rowNo)
}

const KEPT = 'Rows that say the same as an earlier row, and whose time and position do not tell whether it was the same measurement, were each kept as a reading'
const KEPT_REMEDY = 'Nothing needs to be done where each was measured. Map the columns that tell them apart; where a row is a copy, set its reading aside under Review.'

function outcome(draft: RecordDraft, raw: RawRow, { report, seen, lines, context }: FinishWith, identity: Identity | null): RowOutcome {
  const earlier = identity && seen.see(identity.key, identity.content, raw.row)
  if (!earlier) return { state: 'read', row: raw.row, record: draft as IntakeRecord, issues: report.issues }
  if (earlier.same) {
    report.about(
      'warning', null, 'repeated-row', undefined, `the row says the same as ${placeWords(earlier.row, lines.lineOf(earlier.row)).toLowerCase()}, value for value, and counts once with it.`,
      'Nothing needs to be done where it is a copy; otherwise give each row an identity of its own.',
    )
    return { state: 'duplicate', row: raw.row, firstRow: earlier.row, issues: report.issues }
  }
  report.about(
    'error', identity.field, 'duplicate-id-other-values', identity.name,
    `'${identity.name}' stood in ${placeWords(earlier.row, lines.lineOf(earlier.row)).toLowerCase()} already, with other values.`,
    'Give each row an identity of its own, or remove the row that is wrong.',
  )
  return rejected(raw, report, draft.recordType === 'reading' ? raiseForRejected(draft, report, context.policy, context.factsOf) : undefined)
}
