import { caseProblem } from '@/app/api/http/case-problem'
import { changingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { parseBody } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { acknowledgeUrgent, takeBackTold } from '@/lib/cases/acknowledge-urgent'
import { toldBody } from '@/lib/contract/urgent'

export const dynamic = 'force-dynamic'

/** The control room was told of what this notice is about, a row that was not read among them. */
export const POST = changingOne('notice', async (request, { scope, actor }, id) => {
  const told = await parseBody(request, toldBody)
  if (!told.ok) return told.error
  const acknowledged = await acknowledgeUrgent(scope, { noticeId: id }, actor, told.value)
  return acknowledged.ok ? json(acknowledged.value) : caseProblem(acknowledged.error)
})

/** It was not, or not of this: within a minute of noting it. */
export const DELETE = changingOne('notice', async (_request, { scope, actor }, id) => {
  const taken = await takeBackTold(scope, { noticeId: id }, actor)
  return taken.ok ? json(taken.value) : caseProblem(taken.error)
})

export const { GET, PUT, PATCH, OPTIONS } = others('POST', 'DELETE')
