import { caseProblem } from '@/app/api/http/case-problem'
import { changingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { parseBody } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { stepLimit } from '@/lib/cases/current-limits'
import { limitStepBody } from '@/lib/contract/limits'

export const dynamic = 'force-dynamic'

/** One step of a limit by a named person: agreed, accepted, lifted. */
export const POST = changingOne('limit', async (request, { scope, actor }, id) => {
  const step = await parseBody(request, limitStepBody)
  if (!step.ok) return step.error
  const stepped = await stepLimit(scope, id, step.value, actor)
  return stepped.ok ? json(stepped.value) : caseProblem(stepped.error)
})

export const { GET, PUT, PATCH, DELETE, OPTIONS } = others('POST')
