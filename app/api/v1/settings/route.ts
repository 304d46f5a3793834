import { reading } from '@/app/api/http/handler'
import { json } from '@/app/api/http/respond'
import { getSettings } from '@/lib/store/settings'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope }) => json(await getSettings(scope)))
