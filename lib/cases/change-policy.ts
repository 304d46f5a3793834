import { classRank, policySchema, type Policy } from '@/lib/condition'
import { faultsOf, firstUnknownKey } from '@/lib/contract/issue-sentence'
import type { PolicyPreviewJson, PolicyVersionJson } from '@/lib/contract/settings'
import { ok, type Result } from '@/lib/result/result'
import { writeAudit } from '@/lib/store/audit'
import { loadSubjects } from '@/lib/store/evidence'
import { enqueueJob } from '@/lib/store/jobs'
import { currentPolicy, currentPolicyJson, insertPolicy } from '@/lib/store/policies'
import type { Scope } from '@/lib/store/scope'
import { splicesInService } from '@/lib/store/splices'
import { raiseDataVersion } from '@/lib/store/state'
import { database, inTransaction } from '@/lib/store/transaction'
import { ClassChanges } from './class-changes'
import { outOfScope, refuse, type CaseError } from './problem'
import { judge } from './reassess-splices'

const BATCH = 400

type Values = Omit<Policy, 'version'>

function read(values: unknown): Result<Values, CaseError> {
  const parsed = policySchema.safeParse(values, { reportInput: true })
  const unknown = parsed.success ? firstUnknownKey(values, parsed.data) : null
  if (unknown) return refuse('invalid', `The policy has no setting '${unknown}'.`, 'Leave it away; GET /api/v1/policy shows every setting.')
  if (parsed.success) return ok(parsed.data)
  const [fault] = faultsOf(parsed.error.issues, values, policySchema, 'The policy')
  return refuse('invalid', fault?.message ?? 'The policy cannot be read.', fault?.remedy ?? 'Correct it as /api/openapi.json describes it.')
}

/** Which splices a policy would reclassify, nothing stored. Urgent and critical stay on show whatever it says. */
export async function previewPolicy(scope: Scope, values: unknown): Promise<Result<PolicyPreviewJson, CaseError>> {
  const parsed = read(values)
  if (!parsed.ok) return parsed
  const inForce = await currentPolicy(scope)
  const policy = { ...parsed.value, version: inForce.version + 1 }
  let heldOnly = 0
  const changes = new ClassChanges()
  const ids = (await splicesInService(scope)).map((splice) => splice.id)
  for (let at = 0; at < ids.length; at += BATCH) {
    for (const read of await loadSubjects(scope, ids.slice(at, at + BATCH), database())) {
      const subject = read()
      const { shown, assessment } = judge(subject, policy, Date.now())
      changes.add(subject.spliceId, subject.previous?.class ?? 'unknown', shown.class)
      if (shown.held && classRank(assessment.class) < classRank(judge(subject, inForce, Date.now()).assessment.class)) heldOnly++
    }
  }
  return ok({ ...await changes.json(scope), held_only: heldOnly })
}

export interface PolicyChange { values: unknown; procedureNo: string | null; note: string | null; actor: string }

/** A new version of the policy, in force at once for what is read from now on; every splice is assessed by it in the background. */
export async function changePolicy(scope: Scope, change: PolicyChange): Promise<Result<PolicyVersionJson & { job_id: number }, CaseError>> {
  const parsed = read(change.values)
  if (!parsed.ok) return parsed
  const procedureNo = change.procedureNo?.trim() || null
  const values = { ...parsed.value, procedureNo: procedureNo ?? '' }
  await currentPolicyJson(scope)
  return inTransaction(async (tx) => {
    const policy = await insertPolicy(scope, { values, procedureNo, note: change.note?.trim() || null, actor: change.actor }, tx)
    const jobId = policy && await enqueueJob(scope, { kind: 'reassess', policyVersion: policy.version }, tx)
    if (!policy || jobId === undefined) return outOfScope()
    await writeAudit(scope, { actor: change.actor, action: 'policy.changed', subject: { kind: 'policy', id: policy.version }, detail: { note: policy.note } }, tx)
    await raiseDataVersion(scope, tx)
    return ok({ ...policy, job_id: jobId })
  })
}
