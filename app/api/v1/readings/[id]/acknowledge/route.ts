import { caseProblem } from '@/app/api/http/case-problem'
import { changingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { acknowledgeUrgent } from '@/lib/cases/acknowledge-urgent'

export const dynamic = 'force-dynamic'

/** The control room was told of an urgent reading. */
export const POST = changingOne('reading', async (_request, { scope, actor }, id) => {
  const acknowledged = await acknowledgeUrgent(scope, { readingId: id }, actor)
  return acknowledged.ok ? json(acknowledged.value) : caseProblem(acknowledged.error)
})

export const { GET, PUT, PATCH, DELETE, OPTIONS } = others('POST')
