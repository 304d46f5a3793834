import { reading } from '@/app/api/http/handler'
import { parseQuery } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { spliceListQuery, toSpliceFilter } from '@/lib/contract/filter'
import { listSplices } from '@/lib/store/splices'

export const dynamic = 'force-dynamic'

export const GET = reading(async (request, { scope }) => {
  const query = parseQuery(request, spliceListQuery)
  if (!query.ok) return query.error
  const { bbox, cursor, limit, sort } = query.value
  return json(await listSplices(scope, { filter: toSpliceFilter(query.value), bbox, cursor, limit, sort }))
})
