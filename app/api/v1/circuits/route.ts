import { reading } from '@/app/api/http/handler'
import { others } from '@/app/api/http/others'
import { json } from '@/app/api/http/respond'
import { pageQuery } from '@/lib/contract/page'
import { circuitPage } from '@/lib/store/circuits'

export const dynamic = 'force-dynamic'

/** Every circuit, the worst first: a utility has hundreds, so one page holds them where no other length is asked for. */
export const GET = reading(async (_request, { scope, query }) => json(await circuitPage(scope, query.cursor, query.limit)), pageQuery)

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
