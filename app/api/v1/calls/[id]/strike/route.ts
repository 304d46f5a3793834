import { caseProblem } from '@/app/api/http/case-problem'
import { changingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { parseBody } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { strikeEntry } from '@/lib/cases/calls'
import { strikeCallBody } from '@/lib/contract/calls'

export const dynamic = 'force-dynamic'

/** A wrong entry is struck with a reason; it stays in the log. */
export const POST = changingOne('entry of the log', async (request, { scope, actor }, id) => {
  const said = await parseBody(request, strikeCallBody)
  if (!said.ok) return said.error
  const struck = await strikeEntry(scope, id, said.value, actor)
  return struck.ok ? json(struck.value) : caseProblem(struck.error)
})

export const { GET, PUT, PATCH, DELETE, OPTIONS } = others('POST')
