import { reading } from '@/app/api/http/handler'
import { json } from '@/app/api/http/respond'
import { currentPolicyJson } from '@/lib/store/policies'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope }) => json(await currentPolicyJson(scope)))
