import { caseProblem } from '@/app/api/http/case-problem'
import { readingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { showWorking } from '@/lib/cases/show-working'

export const dynamic = 'force-dynamic'

export const GET = readingOne('splice', async (_request, { scope }, id) => {
  const working = await showWorking(scope, id)
  return working.ok ? json(working.value) : caseProblem(working.error)
})

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
