import { reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { pageQuery } from '@/lib/contract/page'
import { corridorPage } from '@/lib/store/corridors'

export const dynamic = 'force-dynamic'

export const GET = reading(async (_request, { scope, query }) => json(await corridorPage(scope, query.cursor, query.limit)), pageQuery)

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
