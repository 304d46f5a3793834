import { defaultPolicy, ownNumbersAt, type SpliceFacts, type Policy } from '@/lib/condition'
import { doubtSentence } from '../report/conductor-doubt'
import type { CellReport } from '../cells/cell-report'
import type { ReadingDraft } from './reading'

export const REJECTED_BUT_URGENT = 'rejected-but-urgent'

const known = <T>(value: T | null): T | undefined => value ?? undefined

/**
 * A row with a fault elsewhere may still carry numbers that cannot wait: a bad date takes no heat out of a splice. Its
 * reading is not stored, so the report says whom to call.
 */
export function raiseForRejected(
  draft: ReadingDraft, report: CellReport, policy: Policy = defaultPolicy, factsOf: (circuit: string, section: string | null) => SpliceFacts[] = () => [],
): void {
  const common = { readingId: draft.rowNo, takenAtMs: draft.takenAt?.getTime(), afterRepair: false }
  const places = draft.circuitLabel === null ? [] : factsOf(draft.circuitLabel, draft.sectionLabel)
  const own = draft.findings.includes('broken-strands')
    ? ownNumbersAt({ ...common, source: 'visual', findings: draft.findings }, places, policy)
    : ownNumbersAt({
        ...common, source: 'resistance', sideAUohm: known(draft.sideAUohm), sideBUohm: known(draft.sideBUohm),
        conductorUohm: known(draft.conductorUohm), conductorBUohm: known(draft.conductorBUohm), electrodeSpanM: known(draft.electrodeSpanM),
        conductorSpanM: known(draft.conductorSpanM), testCurrent: known(draft.testCurrent), lineCurrentA: known(draft.lineCurrentA), sidesDeclared: false, conductorTempC: known(draft.conductorTempC), ambientC: known(draft.ambientC),
      }, places, policy)
  if (!own.urgent) return
  const where = [draft.spliceLabel && `splice ${draft.spliceLabel}`, draft.circuitLabel && `circuit ${draft.circuitLabel}`, draft.structureBack && `STR ${draft.structureBack}`, draft.phase && `phase ${draft.phase}`]
    .filter(Boolean).join(', ')
  const ratio = own.ratio === undefined ? 'broken strands' : `ratio ${own.ratio.toFixed(2)}`
  const provisional = own.doubt ? ` ${doubtSentence(own.doubt)}` : ''
  report.about(
    'error', null, REJECTED_BUT_URGENT, own.class, `${own.class} by its own numbers (${ratio}${where ? `, ${where}` : ''}), and not read for another fault.${provisional}`,
    'Call the control room now about this row, then correct it and import it again.',
  )
}
