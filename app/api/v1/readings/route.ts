import { caseProblem } from '@/app/api/http/case-problem'
import { changing, reading } from '@/app/api/http/handler'
import { refuseUnknownImport } from '@/app/api/http/named-things'
import { others } from '@/app/api/http/others'
import { parseBody } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { importReadingsArray } from '@/lib/cases/import-readings-array'
import { postReadingsQuery, readingRows, readingsQuery } from '@/lib/contract/api'
import { readingsOfImport } from '@/lib/store/readings'

export const dynamic = 'force-dynamic'

const LIMIT_BYTES = 20_000_000

export const GET = reading(async (_request, { scope, query }) => (
  json(await readingsOfImport(scope, query.import, query.cursor, query.limit))), readingsQuery, refuseUnknownImport)

/** Readings from another program, here and now, with the report of an import. */
export const POST = changing(async (request, { scope, actor, query }) => {
  const rows = await parseBody(request, readingRows, LIMIT_BYTES)
  if (!rows.ok) return rows.error
  const imported = await importReadingsArray(scope, rows.value, { survey: query.survey, actor })
  return imported.ok ? json(imported.value.report) : caseProblem(imported.error)
}, postReadingsQuery)

export const { PUT, PATCH, DELETE, OPTIONS } = others('GET', 'POST')
