import { caseProblem } from '@/app/api/http/case-problem'
import { changingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { parseBody } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { takeSplice } from '@/lib/cases/watch'
import { ownerBody } from '@/lib/contract/watch'

export const dynamic = 'force-dynamic'

/** Who has taken a splice. */
export const PUT = changingOne('splice', async (request, { scope, actor }, id) => {
  const said = await parseBody(request, ownerBody)
  if (!said.ok) return said.error
  const taken = await takeSplice(scope, id, said.value.owner, actor)
  return taken.ok ? json(taken.value) : caseProblem(taken.error)
})

export const { GET, POST, PATCH, DELETE, OPTIONS } = others('PUT')
