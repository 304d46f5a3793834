import { reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { searchQuery } from '@/lib/contract/api'
import { searchStore } from '@/lib/store/search'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope, query }) => json(await searchStore(scope, query.q, query.first)), searchQuery)

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
