import { reading } from '@/app/api/http/handler'
import { parseQuery } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { cursorQuery } from '@/lib/contract/api'
import { listImports } from '@/lib/store/imports'

export const dynamic = 'force-dynamic'

export const GET = reading(async (request, { scope }) => {
  const query = parseQuery(request, cursorQuery)
  return query.ok ? json(await listImports(scope, query.value.cursor)) : query.error
})
