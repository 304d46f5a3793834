import { caseProblem } from '@/app/api/http/case-problem'
import { changingOne, readingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { parseBody } from '@/app/api/http/parse'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { proposeLimit } from '@/lib/cases/current-limits'
import { proposeLimitBody } from '@/lib/contract/limits'
import { limitsOfSplice } from '@/lib/store/limits'
import { getSplice } from '@/lib/store/splice-detail'

export const dynamic = 'force-dynamic'

export const GET = readingOne('splice', async (_request, { scope }, id) =>
  await getSplice(scope, id) ? json({ items: await limitsOfSplice(scope, id, Date.now()) }) : notFound('splice'))

/** A limit is proposed; it binds nobody until it is agreed and accepted. */
export const POST = changingOne('splice', async (request, { scope, actor }, id) => {
  const proposal = await parseBody(request, proposeLimitBody)
  if (!proposal.ok) return proposal.error
  const proposed = await proposeLimit(scope, id, proposal.value, actor)
  return proposed.ok ? json(proposed.value) : caseProblem(proposed.error)
})

export const { PUT, PATCH, DELETE, OPTIONS } = others('GET', 'POST')
