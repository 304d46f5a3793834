import { reading } from '@/app/api/http/handler'
import { json } from '@/app/api/http/respond'
import { storeState } from '@/lib/store/state'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope }) => json(await storeState(scope)))
