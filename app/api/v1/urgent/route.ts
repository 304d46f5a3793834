import { reading } from '@/app/api/http/handler'
import { json } from '@/app/api/http/respond'
import { listUrgent } from '@/lib/store/urgent'

export const dynamic = 'force-dynamic'

/** Readings whose own numbers are urgent or critical and that nobody has acknowledged, placed or not. */
export const GET = reading(async (_request, { scope }) => json({ items: await listUrgent(scope) }))
