import { caseProblem } from '@/app/api/http/case-problem'
import { changingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { removeView } from '@/lib/cases/watch'

export const dynamic = 'force-dynamic'

export const DELETE = changingOne('saved view', async (_request, { scope, actor }, id) => {
  const removed = await removeView(scope, id, actor)
  return removed.ok ? json(removed.value) : caseProblem(removed.error)
})

export const { GET, POST, PUT, PATCH, OPTIONS } = others('DELETE')
