import { readingOne } from '@/app/api/http/handler'
import { parseQuery } from '@/app/api/http/parse'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { cursorQuery } from '@/lib/contract/api'
import { listIssues } from '@/lib/store/import-issues'
import { getImport } from '@/lib/store/imports'

export const dynamic = 'force-dynamic'

export const GET = readingOne('import', async (request, { scope }, id) => {
  const query = parseQuery(request, cursorQuery)
  if (!query.ok) return query.error
  if (!(await getImport(scope, id))) return notFound('import')
  return json(await listIssues(scope, id, query.value.cursor))
})
