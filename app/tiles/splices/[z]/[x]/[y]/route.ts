import { others } from '@/app/api/http/others'
import { tileHandler } from '@/app/tiles/tile'
import { spliceTile } from '@/lib/tiles/tiles'

export const dynamic = 'force-dynamic'

export const GET = tileHandler('splices', spliceTile)

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
