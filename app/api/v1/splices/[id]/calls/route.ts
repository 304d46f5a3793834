import { caseProblem } from '@/app/api/http/case-problem'
import { changingOne, readingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { parseBody } from '@/app/api/http/parse'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { recordCall } from '@/lib/cases/calls'
import { recordCallBody } from '@/lib/contract/calls'
import { callsOfSplice } from '@/lib/store/calls'
import { getSplice } from '@/lib/store/splice-detail'

export const dynamic = 'force-dynamic'

export const GET = readingOne('splice', async (_request, { scope }, id) =>
  await getSplice(scope, id) ? json({ items: await callsOfSplice(scope, id) }) : notFound('splice'))

/** A call, or a look in a peak-load period. */
export const POST = changingOne('splice', async (request, { scope, actor }, id) => {
  const said = await parseBody(request, recordCallBody)
  if (!said.ok) return said.error
  const recorded = await recordCall(scope, id, said.value, actor)
  return recorded.ok ? json(recorded.value) : caseProblem(recorded.error)
})

export const { PUT, PATCH, DELETE, OPTIONS } = others('GET', 'POST')
