import { reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { listBatches } from '@/lib/store/batches'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope }) => json({ items: await listBatches(scope) }))

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
