import { reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { storeState } from '@/lib/store/state'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope }) => json(await storeState(scope)))

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
