import { reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { listUrgent } from '@/lib/store/urgent'

export const dynamic = 'force-dynamic'

/** What is urgent or critical and the control room was not told of, placed or not. */
export const GET = reading(async (_request, { scope }) => json({ items: await listUrgent(scope) }))

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
