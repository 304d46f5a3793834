import { reading } from '@/app/api/http/handler'
import { refuseUnknownCircuits } from '@/app/api/http/named-things'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { spliceListQuery, toSpliceFilter } from '@/lib/contract/filter'
import { listSplices } from '@/lib/store/splices'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope, query }) => {
  const { bbox, cursor, limit, sort } = query
  return json(await listSplices(scope, { filter: toSpliceFilter(query), bbox, cursor, limit, sort }))
}, spliceListQuery, refuseUnknownCircuits)

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
