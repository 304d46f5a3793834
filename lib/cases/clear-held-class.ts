import type { ContradictionCause } from '@/lib/contract/decision'
import { ok, type Result } from '@/lib/result/result'
import { AssessmentRows, assessedAt } from '@/lib/store/assessments'
import { writeAudit } from '@/lib/store/audit'
import { loadSubjects, lockSplices } from '@/lib/store/evidence'
import { rollUpCircuits } from '@/lib/store/health'
import { reserveIds } from '@/lib/store/ids'
import { currentPolicy } from '@/lib/store/policies'
import type { Scope } from '@/lib/store/scope'
import { raiseDataVersion } from '@/lib/store/state'
import { inTransaction } from '@/lib/store/transaction'
import { noSuch, refuse, type CaseError } from './problem'
import { judge } from './reassess-splices'

export interface Decision {
  engineer: string
  /** What explains that a later reading contradicts the finding, and in words where it is another one. */
  cause: ContradictionCause
  causeText?: string
  reason: string
  /** When the splice was assessed as the engineer saw it, ISO 8601. Where it was assessed anew since, she is asked to look again. */
  assessedAt?: string
}

/**
 * A named engineer says, with a reason, that an urgent or critical finding no longer stands: the class falls to what the evidence says
 * now, never below it. It speaks of what was measured before; a finding measured later stands, whenever its file arrives.
 */
export async function clearHeldClass(scope: Scope, spliceId: number, decision: Decision, actor: string): Promise<Result<{ class: string }, CaseError>> {
  const engineer = decision.engineer.trim()
  const reason = decision.reason.trim()
  const { cause } = decision
  const causeText = decision.causeText?.trim()
  if (!engineer || !reason) return refuse('invalid', 'A class is lowered by a named engineer with a reason.', 'Give both.')
  if (cause === 'other' && !causeText) {
    return refuse('invalid', 'Another cause is named in words.', 'Say in cause_text what explains that the readings contradict each other.')
  }
  return inTransaction(async (tx) => {
    await lockSplices(scope, [spliceId], tx)
    const [read] = await loadSubjects(scope, [spliceId], tx)
    if (!read) return noSuch('splice')
    const subject = read()
    const seen = decision.assessedAt
    if (seen !== undefined && Date.parse(seen) !== Date.parse(await assessedAt(scope, spliceId, tx) ?? '')) {
      return refuse('wrong-state', 'This splice was assessed anew since you opened it; your decision was not recorded.',
        'Look at the sheet again: there may be a new reading, another policy or somebody else’s decision.')
    }
    const policy = await currentPolicy(scope, tx)
    const asOfMs = Date.now()
    const before = judge(subject, policy, asOfMs)
    if (!before.shown.held) {
      return refuse('wrong-state', `This class is not held: the evidence itself says ${before.assessment.class}.`,
        'A decision shows nothing better than the evidence. Take new readings, or correct those that are wrong.')
    }
    const judged = judge(subject, policy, asOfMs, { engineer, reason, decidedAtMs: asOfMs })
    const rows = await AssessmentRows.of(scope, { cause: 'engineer', importId: null }, tx)
    const [id = 0] = await reserveIds(tx, 'assessment', 1)
    rows.add(id, judged)
    await rows.write(tx)
    await rollUpCircuits(scope, [subject.circuitId], policy, tx)
    await writeAudit(scope, {
      actor, action: 'class.cleared', subject: { kind: 'splice', id: spliceId },
      detail: { engineer, cause, ...causeText ? { cause_text: causeText } : {}, reason, from: before.shown.class, to: judged.shown.class },
    }, tx)
    await raiseDataVersion(scope, tx)
    return ok({ class: judged.shown.class })
  })
}
