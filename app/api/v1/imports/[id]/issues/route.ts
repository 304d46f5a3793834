import { readingOne } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { notFound } from '@/app/api/http/problem'
import { json } from '@/app/api/http/respond'
import { pageQuery } from '@/lib/contract/page'
import { listIssues } from '@/lib/store/import-issues'
import { getImport } from '@/lib/store/imports'

export const dynamic = 'force-dynamic'

export const GET = readingOne('import', async (_request, { scope, query }, id) => {
  if (!(await getImport(scope, id))) return notFound('import')
  return json(await listIssues(scope, id, query.cursor, query.limit))
}, pageQuery)

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
