import { caseProblem } from '@/app/api/http/case-problem'
import { changing, reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { parseBody } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { changeSettings } from '@/lib/cases/change-settings'
import { settingsBody } from '@/lib/contract/settings'
import { getSettings } from '@/lib/store/settings'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope }) => json(await getSettings(scope)))

/** Changes the settings that the body has and leaves the others. */
export const PUT = changing(async (request, { scope, actor }) => {
  const body = await parseBody(request, settingsBody)
  if (!body.ok) return body.error
  const changed = await changeSettings(scope, body.value, actor)
  return changed.ok ? json(changed.value) : caseProblem(changed.error)
})

export const { POST, PATCH, DELETE, OPTIONS } = others('GET', 'PUT')
