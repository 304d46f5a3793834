import { caseProblem } from '@/app/api/http/case-problem'
import { changing, reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { parseBody } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { saveView } from '@/lib/cases/watch'
import { savedViewBody } from '@/lib/contract/watch'
import { listViews } from '@/lib/store/watch'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope }) => json({ items: await listViews(scope) }))

export const POST = changing(async (request, { scope, actor }) => {
  const view = await parseBody(request, savedViewBody)
  if (!view.ok) return view.error
  const saved = await saveView(scope, view.value, actor)
  return saved.ok ? json(saved.value) : caseProblem(saved.error)
})

export const { PUT, PATCH, DELETE, OPTIONS } = others('GET', 'POST')
