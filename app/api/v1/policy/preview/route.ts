import { caseProblem } from '@/app/api/http/case-problem'
import { changing } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { parseBody } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { previewPolicy } from '@/lib/cases/change-policy'
import { policyPreviewBody } from '@/lib/contract/api'

export const dynamic = 'force-dynamic'

/** Which splices a policy would reclassify. Nothing is stored, but it costs work, so other sites may not ask for it. */
export const POST = changing(async (request, { scope }) => {
  const body = await parseBody(request, policyPreviewBody)
  if (!body.ok) return body.error
  const preview = await previewPolicy(scope, body.value.values)
  return preview.ok ? json(preview.value) : caseProblem(preview.error)
})

export const { GET, PUT, PATCH, DELETE, OPTIONS } = others('POST')
