import { caseProblem } from '@/app/api/http/case-problem'
import { changing } from '@/app/api/http/handler'
import { parseBody, parseQuery } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { importReadingsArray } from '@/lib/cases/import-readings-array'
import { postReadingsQuery, readingRows } from '@/lib/contract/api'

export const dynamic = 'force-dynamic'

const LIMIT_BYTES = 20_000_000

/** Readings from another program, here and now, with the report of an import. */
export const POST = changing(async (request, { scope, actor }) => {
  const query = parseQuery(request, postReadingsQuery)
  if (!query.ok) return query.error
  const rows = await parseBody(request, readingRows, LIMIT_BYTES)
  if (!rows.ok) return rows.error
  const imported = await importReadingsArray(scope, rows.value, { survey: query.value.survey, actor })
  return imported.ok ? json(imported.value.report) : caseProblem(imported.error)
})
