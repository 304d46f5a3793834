import { reviewDueMs } from '@/lib/condition/limit-lapse'
import { DAY_MS, HOUR_MS } from '@/lib/condition/limits'
import type { Policy } from '@/lib/condition/policy'
import type { SpliceDetail } from '@/lib/contract/contract'
import type { CurrentLimitJson, LimitStep, ProposeLimit } from '@/lib/contract/limits'
import { ok, type Result } from '@/lib/result/result'
import { writeAudit, type AuditAction } from '@/lib/store/audit'
import { lockSplices } from '@/lib/store/evidence'
import { acceptLimit, agreeLimit, insertLimit, liftLimit, limitById, limitsOfSplice } from '@/lib/store/limits'
import { currentPolicy } from '@/lib/store/policies'
import { rollUpRisk } from '@/lib/store/risk'
import type { Scope } from '@/lib/store/scope'
import { getSplice } from '@/lib/store/splice-detail'
import { raiseDataVersion } from '@/lib/store/state'
import { inTransaction, type Tx } from '@/lib/store/transaction'
import { formatAllowed } from '@/lib/units/format'
import { noSuch, refuse, type CaseError } from './problem'

type Outcome = Result<CurrentLimitJson, CaseError>

/** Somebody proposes a limit for a splice. It binds nobody until the rating engineer agreed and an operator accepted it. */
export async function proposeLimit(scope: Scope, spliceId: number, proposal: ProposeLimit, actor: string): Promise<Outcome> {
  return inTransaction(async (tx): Promise<Outcome> => {
    const nowMs = Date.now()
    await lockSplices(scope, [spliceId], tx)
    const splice = await getSplice(scope, spliceId, tx)
    if (!splice || splice.removed_on !== null) return noSuch('splice in service')
    const { line_a: lineA, proposed_by: proposedBy, above_advised_why: aboveWhy } = proposal
    const advisedA = splice.outlook?.limit?.line_a ?? null
    if (splice.rating_a !== null && lineA > splice.rating_a) {
      return refuse('invalid', `A limit of ${lineA} A lies above the section's rating of ${splice.rating_a} A.`, 'Propose the rating or less.')
    }
    if ((await limitsOfSplice(scope, spliceId, nowMs, tx)).some((limit) => limit.standing !== 'lifted')) {
      return refuse('wrong-state', 'A limit of this splice stands on the register already.', 'Lift that one first, with a reason, or bring it through its steps.')
    }
    const isAbove = advisedA !== null && lineA > advisedA
    if (isAbove && aboveWhy === undefined) {
      return refuse('invalid', `A limit of ${lineA} A lies above the advised ${formatAllowed(advisedA)}.`, 'Say why in above_advised_why, or propose the advised figure or less.')
    }
    const reason = isAbove ? `Why more than the advised ${formatAllowed(advisedA)}: ${aboveWhy}. ${proposal.reason}` : proposal.reason
    const policy = await currentPolicy(scope, tx)
    const reviewBy = new Date(proposal.review_by ?? reviewDueMs(nowMs, policy, repairDueMs(splice, policy)))
    if (reviewBy.getTime() <= nowMs) return refuse('invalid', 'The day of review lies in the past.', 'Give a day to come.')
    const id = await insertLimit(scope, { spliceId, lineA, advisedA, reason, proposedBy, reviewBy }, tx)
    if (id === undefined) return noSuch('splice in service')
    return recorded(scope, id, 'limit.proposed', actor, tx)
  })
}

/** The next step of a limit by a named person: agreed by another than proposed it, accepted by an operator who reads it back, lifted with a reason. */
export async function stepLimit(scope: Scope, id: number, step: LimitStep, actor: string): Promise<Outcome> {
  return inTransaction(async (tx): Promise<Outcome> => {
    const seen = await limitById(scope, id, Date.now(), tx)
    if (!seen) return noSuch('limit')
    await lockSplices(scope, [seen.splice_id], tx)
    const limit = await limitById(scope, id, Date.now(), tx)
    if (!limit) return noSuch('limit')
    if (limit.standing === 'lifted') return refuse('wrong-state', 'This limit was lifted.', 'Propose another one.')
    switch (step.step) {
      case 'agree': {
        if (limit.agreed_by !== null) return refuse('wrong-state', `${limit.agreed_by} agreed to this limit already.`, 'Nothing needs to be done.')
        if (samePerson(step.agreed_by, limit.proposed_by)) {
          return refuse('invalid', 'Who proposed a limit does not agree to it.', 'Ask the rating engineer, or another one.')
        }
        await agreeLimit(id, step.agreed_by, tx)
        return recorded(scope, id, 'limit.agreed', actor, tx)
      }
      case 'accept': {
        if (limit.agreed_by === null) return refuse('wrong-state', 'No rating engineer has agreed to this limit.', 'Ask for that first.')
        if (limit.accepted_by !== null) return refuse('wrong-state', `${limit.accepted_by} accepted this limit already.`, 'Nothing needs to be done.')
        if (step.read_back_a !== limit.line_a) {
          return refuse('invalid', `Read back was ${step.read_back_a} A; the limit is ${limit.line_a} A.`, 'Say the figure again, and read it back as it is.')
        }
        await acceptLimit(id, step.accepted_by, step.in_force_from === undefined ? null : new Date(step.in_force_from), tx)
        return recorded(scope, id, 'limit.accepted', actor, tx)
      }
      case 'lift': {
        await liftLimit(id, step.lifted_by, step.why, tx)
        return recorded(scope, id, 'limit.lifted', actor, tx)
      }
    }
  })
}

/** When its repair is due by the response time of its class, counted from when the finding was measured; undefined where its class has none. */
function repairDueMs({ class: shown, raised_at: raisedAt, first_found_at: foundAt, read_in_at: readInAt }: SpliceDetail, { response }: Policy): number | undefined {
  const allowedMs = { critical: response.criticalHours * HOUR_MS, urgent: response.urgentDays * DAY_MS, degraded: response.degradedDays * DAY_MS, watch: null, sound: null, unknown: null }[shown]
  if (allowedMs === null || raisedAt === null) return undefined
  const unreadMs = foundAt !== null && readInAt !== null ? Math.max(0, Date.parse(readInAt) - Date.parse(foundAt)) : 0
  return Date.parse(raisedAt) - unreadMs + allowedMs
}

const samePerson = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase()

async function recorded(scope: Scope, id: number, action: AuditAction, actor: string, tx: Tx): Promise<Outcome> {
  const limit = await limitById(scope, id, Date.now(), tx)
  if (!limit) return noSuch('limit')
  await rollUpRisk(scope, [limit.circuit_id], tx)
  await writeAudit(scope, { actor, action, subject: { kind: 'splice', id: limit.splice_id }, detail: { limit_id: id, line_a: limit.line_a } }, tx)
  await raiseDataVersion(scope, tx)
  return ok(limit)
}
