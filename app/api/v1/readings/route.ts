import { caseProblem } from '@/app/api/http/case-problem'
import { changing, reading } from '@/app/api/http/handler'
import { parseBody, parseQuery } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { importReadingsArray } from '@/lib/cases/import-readings-array'
import { postReadingsQuery, readingRows, readingsQuery } from '@/lib/contract/api'
import { readingsOfImport } from '@/lib/store/readings'

export const dynamic = 'force-dynamic'

const LIMIT_BYTES = 20_000_000

export const GET = reading(async (request, { scope }) => {
  const query = parseQuery(request, readingsQuery)
  return query.ok ? json(await readingsOfImport(scope, query.value.import, query.value.cursor)) : query.error
})

/** Readings from another program, here and now, with the report of an import. */
export const POST = changing(async (request, { scope, actor }) => {
  const query = parseQuery(request, postReadingsQuery)
  if (!query.ok) return query.error
  const rows = await parseBody(request, readingRows, LIMIT_BYTES)
  if (!rows.ok) return rows.error
  const imported = await importReadingsArray(scope, rows.value, { survey: query.value.survey, actor })
  return imported.ok ? json(imported.value.report) : caseProblem(imported.error)
})
