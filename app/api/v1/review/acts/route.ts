import { caseProblem } from '@/app/api/http/case-problem'
import { changing, reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { parseBody } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { beginReviewAct } from '@/lib/cases/review/review-acts'
import { reviewActBody } from '@/lib/contract/review-acts'
import { listReviewActs } from '@/lib/store/review-acts'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope }) => json({ items: await listReviewActs(scope) }))

/** Settles many waiting readings at once, in the background. */
export const POST = changing(async (request, { scope, actor }) => {
  const body = await parseBody(request, reviewActBody)
  if (!body.ok) return body.error
  const act = await beginReviewAct(scope, body.value, actor)
  return act.ok ? json(act.value) : caseProblem(act.error)
})

export const { PUT, PATCH, DELETE, OPTIONS } = others('GET', 'POST')
