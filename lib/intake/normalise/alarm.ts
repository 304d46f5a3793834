import { defaultPolicy, ownNumbersAt, type Evidence, type Policy, type SpliceFacts } from '@/lib/condition'
import type { CellReport } from '../cells/cell-report'
import type { RowAlarm } from '../outcome'
import type { ReadingDraft } from '../reading'
import { doubtSentence, tableSentence } from '../report/conductor-doubt'
import type { RowIssue } from '../types'
import { standInOf, type StandIn } from './out-of-bounds'

export const REJECTED_BUT_URGENT = 'rejected-but-urgent'

type FactsOf = (circuit: string, section: string | null) => SpliceFacts[]

const known = <T>(value: T | null): T | undefined => value ?? undefined

/**
 * A row with a fault elsewhere may still carry numbers that cannot wait: a bad date takes no heat out of a splice. Its reading is not
 * stored, so the report says whom to call, and operations sees the row.
 */
export function raiseForRejected(
  draft: ReadingDraft, report: CellReport, policy: Policy = defaultPolicy, factsOf: FactsOf = () => [],
): RowAlarm | undefined {
  const why = report.issues.flatMap(({ severity, message }) => (severity === 'error' ? [message] : []))
  const alarm = alarmOf(draft, why, policy, factsOf, standInOf(draft, report))
  if (!alarm) return undefined
  const { severity, code, value, message, remedy } = alarmIssue(alarm)
  report.about(severity, null, code, value, message, remedy)
  return alarm
}

/** What cannot wait of a row that is not read; undefined where its own numbers are neither urgent nor critical. */
export function alarmOf(
  draft: ReadingDraft, why: string[], policy: Policy = defaultPolicy, factsOf: FactsOf = () => [], standIn: StandIn | null = null,
): RowAlarm | undefined {
  const places = draft.circuitLabel === null || standIn?.conductorUohm ? [] : factsOf(draft.circuitLabel, draft.sectionLabel)
  const { class: found, ratio, doubt, byTable } = ownNumbersAt(evidenceOf(standIn ? withStandIn(draft, standIn) : draft), places, policy)
  if (found !== 'urgent' && found !== 'critical') return undefined
  return { row: draft.rowNo, class: found, ratio: ratio ?? null, doubt, byTable, says: draft, why: standIn ? [...why, sentence(standIn.words)] : why, ...(standIn && { restsOn: standIn.words }) }
}

const sentence = (words: string): string => `${words[0]?.toUpperCase()}${words.slice(1)}.`

const withStandIn = (draft: ReadingDraft, { sides, conductorUohm }: StandIn): ReadingDraft =>
  ({ ...draft, ...sides, ...(conductorUohm !== null && { conductorUohm, conductorBUohm: null, conductorUnusable: null }) })

/** The alarm as an issue of its row. */
export function alarmIssue({ row, class: found, ratio, doubt, byTable, restsOn, inLine, says }: RowAlarm): Omit<RowIssue, 'raw'> & { value: string } {
  const where = [
    says.spliceLabel && `splice ${says.spliceLabel}`, says.circuitLabel && `circuit ${says.circuitLabel}`,
    says.structureBack && `STR ${says.structureBack}`, says.phase && `phase ${says.phase}`,
  ].filter(Boolean).join(', ')
  const numbers = ratio === null ? 'broken strands' : `ratio ${ratio.toFixed(2)}`
  const line = inLine === undefined ? '' : ` ${inLine}`
  const caution = doubt ? ` ${doubtSentence(doubt)}` : byTable ? ` ${tableSentence(byTable)}` : ''
  return {
    severity: 'error', row, code: REJECTED_BUT_URGENT, value: found,
    message: `${found} by its own numbers (${numbers}${where ? `, ${where}` : ''}), and not read ${restsOn ? `as it stands: ${restsOn}` : 'for another fault'}.${line}${caution}`,
    remedy: 'Call the control room now about this row, then correct it and import it again.',
  }
}

function evidenceOf(draft: ReadingDraft): Evidence {
  const common = { readingId: draft.rowNo, takenAtMs: draft.takenAt?.getTime(), instrument: known(draft.instrument), afterRepair: false }
  if (draft.findings.includes('broken-strands')) return { ...common, source: 'visual', findings: draft.findings }
  const lineCurrentA = known(draft.lineCurrentA)
  const conductorTempC = known(draft.conductorTempC)
  const ambientC = known(draft.ambientC)
  if (draft.spliceTempC !== null && draft.sideAUohm === null && draft.sideBUohm === null) {
    return {
      ...common, source: 'infrared', spliceTempC: draft.spliceTempC, conductorTempC, referenceKind: known(draft.referenceKind), ambientC,
      windMS: known(draft.windMS), sun: known(draft.sun), rain1h: known(draft.rain1h), lineCurrentA, current30minA: known(draft.current30minA),
      emissivity: known(draft.emissivity), reflectedC: known(draft.reflectedC), distanceM: known(draft.distanceM),
      viewAngleDeg: known(draft.viewAngleDeg), ifovMrad: known(draft.ifovMrad), band: known(draft.band),
    }
  }
  return {
    ...common, source: 'resistance', sideAUohm: known(draft.sideAUohm), sideBUohm: known(draft.sideBUohm), conductorUohm: known(draft.conductorUohm),
    conductorBUohm: known(draft.conductorBUohm), conductorUnusable: known(draft.conductorUnusable), electrodeSpanM: known(draft.electrodeSpanM),
    conductorSpanM: known(draft.conductorSpanM), testCurrent: known(draft.testCurrent), lineCurrentA, sidesDeclared: false, conductorTempC, ambientC,
  }
}
