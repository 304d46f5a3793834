import { reading } from '@/app/api/http/handler'
import { parseQuery } from '@/app/api/http/parse'
import { json } from '@/app/api/http/respond'
import { searchQuery } from '@/lib/contract/api'
import { searchStore } from '@/lib/store/search'

export const dynamic = 'force-dynamic'

export const GET = reading(async (request, { scope }) => {
  const query = parseQuery(request, searchQuery)
  return query.ok ? json({ items: await searchStore(scope, query.value.q) }) : query.error
})
