import { caseProblem } from '@/app/api/http/case-problem'
import { changingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { parseBody } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { clearHeldClass } from '@/lib/cases/clear-held-class'
import { clearBody } from '@/lib/contract/decision'
import { getSplice } from '@/lib/store/splice-detail'

export const dynamic = 'force-dynamic'

/** A named engineer says, with the cause of the contradiction and a reason, that a held urgent or critical class no longer stands. */
export const POST = changingOne('splice', async (request, { scope, actor }, id) => {
  const decision = await parseBody(request, clearBody)
  if (!decision.ok) return decision.error
  const { engineer, cause, cause_text: causeText, reason, assessed_at: assessedAt } = decision.value
  const cleared = await clearHeldClass(scope, id, { engineer, cause, causeText, reason, assessedAt }, actor)
  return cleared.ok ? json(await getSplice(scope, id)) : caseProblem(cleared.error)
})

export const { GET, PUT, PATCH, DELETE, OPTIONS } = others('POST')
