import { assess, showClass, withHeldDuties } from '@/lib/condition'
import { ok, type Result } from '@/lib/result/result'
import { AssessmentRows } from '@/lib/store/assessments'
import { writeAudit } from '@/lib/store/audit'
import { loadSubjects, lockSplices } from '@/lib/store/evidence'
import { rollUpCircuits } from '@/lib/store/health'
import { reserveIds } from '@/lib/store/ids'
import { currentPolicy } from '@/lib/store/policies'
import type { Scope } from '@/lib/store/scope'
import { raiseDataVersion } from '@/lib/store/state'
import { inTransaction } from '@/lib/store/transaction'
import { noSuch, refuse, type CaseError } from './problem'

/** A named engineer says, with a reason, that an urgent or critical finding no longer stands: the class falls to what the evidence says now. */
export async function clearHeldClass(
  scope: Scope, spliceId: number, decision: { engineer: string; reason: string }, actor: string,
): Promise<Result<{ class: string }, CaseError>> {
  const engineer = decision.engineer.trim()
  const reason = decision.reason.trim()
  if (!engineer || !reason) return refuse('invalid', 'A class is lowered by a named engineer with a reason.', 'Give both.')
  return inTransaction(async (tx) => {
    await lockSplices(scope, [spliceId], tx)
    const [read] = await loadSubjects(scope, [spliceId], tx)
    if (!read) return noSuch('splice')
    const subject = read()
    const policy = await currentPolicy(scope, tx)
    const asOfMs = Date.now()
    const assessment = assess({ facts: subject.facts, evidence: subject.evidence, policy, asOfMs })
    const shown = showClass(subject.previous, assessment, policy, { engineer, reason, decidedAtMs: asOfMs })
    const rows = await AssessmentRows.of(scope, { cause: 'engineer', importId: null }, tx)
    const [id = 0] = await reserveIds(tx, 'assessment', 1)
    rows.add(id, { spliceId, circuitId: subject.circuitId, assessment: withHeldDuties(assessment, shown, policy), shown })
    await rows.write(tx)
    await rollUpCircuits(scope, [subject.circuitId], policy, tx)
    await writeAudit(scope, {
      actor, action: 'class.cleared', subject: { kind: 'splice', id: spliceId }, detail: { engineer, reason, from: subject.previous?.class ?? null, to: shown.class },
    }, tx)
    await raiseDataVersion(scope, tx)
    return ok({ class: shown.class })
  })
}
