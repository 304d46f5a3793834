import { caseProblem } from '@/app/api/http/case-problem'
import { changingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { parseBody } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { settleReview, takeBackReview } from '@/lib/cases/settle-review'
import { placementDecision } from '@/lib/contract/intake'

export const dynamic = 'force-dynamic'

/** A person says where the reading belongs. */
export const POST = changingOne('reading', async (request, { scope, actor }, id) => {
  const decision = await parseBody(request, placementDecision)
  if (!decision.ok) return decision.error
  const settled = await settleReview(scope, id, decision.value, actor)
  return settled.ok ? json(settled.value) : caseProblem(settled.error)
})

/** Takes the last decision back. */
export const DELETE = changingOne('reading', async (_request, { scope, actor }, id) => {
  const restored = await takeBackReview(scope, id, actor)
  return restored.ok ? json(restored.value) : caseProblem(restored.error)
})

export const { GET, PUT, PATCH, OPTIONS } = others('POST', 'DELETE')
