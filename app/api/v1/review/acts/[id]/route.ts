import { caseProblem } from '@/app/api/http/case-problem'
import { changingOne, readingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { undoReviewAct } from '@/lib/cases/review/review-acts'
import { listReviewActs } from '@/lib/store/review-acts'

export const dynamic = 'force-dynamic'

export const GET = readingOne('act', async (_request, { scope }, id) => {
  const [act] = await listReviewActs(scope, id)
  return act ? json(act) : notFound('act')
})

/** Takes the act back, in the background. */
export const DELETE = changingOne('act', async (_request, { scope, actor }, id) => {
  const act = await undoReviewAct(scope, id, actor)
  return act.ok ? json(act.value) : caseProblem(act.error)
})

export const { POST, PUT, PATCH, OPTIONS } = others('GET', 'DELETE')
