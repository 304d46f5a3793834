import { caseProblem } from '@/app/api/http/case-problem'
import { changing } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { parseBody } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { previewReviewAct } from '@/lib/cases/review/review-acts'
import { reviewActPreviewBody } from '@/lib/contract/review-acts'

export const dynamic = 'force-dynamic'

/** What an act on many waiting readings would do. */
export const POST = changing(async (request, { scope }) => {
  const body = await parseBody(request, reviewActPreviewBody)
  if (!body.ok) return body.error
  const would = await previewReviewAct(scope, body.value.action, body.value.choice)
  return would.ok ? json(would.value) : caseProblem(would.error)
})

export const { GET, PUT, PATCH, DELETE, OPTIONS } = others('POST')
