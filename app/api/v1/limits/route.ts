import { reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { limitsQuery } from '@/lib/contract/limits'
import { openLimits } from '@/lib/store/limits'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope, query }) => json({ items: await openLimits(scope, query.circuit ?? null, Date.now()) }), limitsQuery)

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
