import { caseProblem } from '@/app/api/http/case-problem'
import { changing, reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { parseBody } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { changePolicy } from '@/lib/cases/change-policy'
import { policyBody } from '@/lib/contract/api'
import { currentPolicyJson } from '@/lib/store/policies'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope }) => json(await currentPolicyJson(scope)))

/** A new version of the policy, and the reassessment it starts. */
export const PUT = changing(async (request, { scope, actor }) => {
  const body = await parseBody(request, policyBody)
  if (!body.ok) return body.error
  const { values, procedure_no: procedureNo, note, set_by: setBy = null } = body.value
  const changed = await changePolicy(scope, { values, procedureNo, note, setBy, actor })
  return changed.ok ? json(changed.value) : caseProblem(changed.error)
})

export const { POST, PATCH, DELETE, OPTIONS } = others('GET', 'PUT')
