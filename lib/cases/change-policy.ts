import { isDeepStrictEqual } from 'node:util'
import { classRank, policySchema, type Policy } from '@/lib/condition'
import { faultsOf, firstUnknownKey } from '@/lib/contract/issue-sentence'
import type { PolicyPreviewJson, PolicyVersionJson } from '@/lib/contract/settings'
import { ok, type Result } from '@/lib/result/result'
import { writeAudit } from '@/lib/store/audit'
import type { NewAssessment } from '@/lib/store/assessments'
import { loadSubjects, type Subject } from '@/lib/store/evidence'
import { enqueueJob } from '@/lib/store/jobs'
import { currentPolicy, currentPolicyJson, insertPolicy } from '@/lib/store/policies'
import type { Scope } from '@/lib/store/scope'
import { splicesInService } from '@/lib/store/splices'
import { raiseDataVersion } from '@/lib/store/state'
import { database, inTransaction } from '@/lib/store/transaction'
import { advisedOf } from './advised-current'
import { AdvisedChanges } from './advised-changes'
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

/** Which splices a policy would reclassify, and whose advised current would differ; nothing stored. Urgent and critical stay on show whatever it says. */
export async function previewPolicy(scope: Scope, values: unknown): Promise<Result<PolicyPreviewJson, CaseError>> {
  const parsed = read(values)
  if (!parsed.ok) return parsed
  const inForce = await currentPolicy(scope)
  const policy = { ...parsed.value, version: inForce.version + 1 }
  let heldOnly = 0
  const nowMs = Date.now()
  const changes = new ClassChanges()
  const advised = await AdvisedChanges.of(scope, nowMs)
  const ids = (await splicesInService(scope)).map((splice) => splice.id)
  for (let at = 0; at < ids.length; at += BATCH) {
    for (const read of await loadSubjects(scope, ids.slice(at, at + BATCH), database())) {
      const subject = read()
      const { shown, assessment } = judge(subject, policy, nowMs)
      const before = subject.previous?.class ?? 'unknown'
      changes.add(subject.spliceId, before, shown.class)
      // What is sound or not known is advised nothing, now as then: most splices are judged once.
      const limited = classRank(before) >= classRank('watch')
      if (!limited && !shown.held && !assessment.limit) continue
      const now = judge(subject, inForce, nowMs)
      if (shown.held && classRank(assessment.class) < classRank(now.assessment.class)) heldOnly++
      advised.add(subject.spliceId, before, figureOf(subject, now, inForce, nowMs), figureOf(subject, { shown, assessment }, policy, nowMs))
    }
  }
  return ok({ ...await changes.json(scope), held_only: heldOnly, advised: await advised.json(scope) })
}

const figureOf = ({ facts }: Subject, { assessment, shown }: Pick<NewAssessment, 'assessment' | 'shown'>, policy: Policy, nowMs: number) =>
  advisedOf(facts, assessment, shown, policy, nowMs)

export interface PolicyChange { values: unknown; procedureNo: string | null; note: string | null; /** Of whoever stands behind the values. */ setBy: string | null; actor: string }

/** A new version of the policy, in force at once for what is read from now on; every splice is assessed by it in the background. */
export async function changePolicy(scope: Scope, change: PolicyChange): Promise<Result<PolicyVersionJson & { job_id: number }, CaseError>> {
  const parsed = read(change.values)
  if (!parsed.ok) return parsed
  const procedureNo = change.procedureNo?.trim() || null
  const values = { ...parsed.value, procedureNo: procedureNo ?? '' }
  const inForce = policySchema.parse((await currentPolicyJson(scope)).values)
  const [note, setBy] = [change.note?.trim() || null, change.setBy?.trim() || null]
  if ((note === null || setBy === null) && !isDeepStrictEqual({ ...inForce, procedureNo: '' }, { ...parsed.value, procedureNo: '' })) {
    const missing = [setBy === null && 'a named person stands behind it (set_by)', note === null && 'a reason is given (note)'].filter(Boolean).join(' and ')
    return refuse('invalid', 'The values differ from those in force: classes and advised currents follow them.', `Send it again once ${missing}.`)
  }
  return inTransaction(async (tx) => {
    const policy = await insertPolicy(scope, { values, procedureNo, note, setBy, actor: change.actor }, tx)
    const jobId = policy && await enqueueJob(scope, { kind: 'reassess', policyVersion: policy.version }, tx)
    if (!policy || jobId === undefined) return outOfScope()
    await writeAudit(scope, { actor: change.actor, action: 'policy.changed', subject: { kind: 'policy', id: policy.version }, detail: { note: policy.note, set_by: policy.set_by } }, tx)
    await raiseDataVersion(scope, tx)
    return ok({ ...policy, job_id: jobId })
  })
}
