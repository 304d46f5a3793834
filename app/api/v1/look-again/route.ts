import { reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { lookAgainNow } from '@/lib/store/calls'

export const dynamic = 'force-dynamic'

/** What comes back at each peak-load period until it is repaired. */
export const GET = reading(async (_request, { scope }) => json(await lookAgainNow(scope, Date.now())))

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
