import { others } from '@/app/api/http/others'
import { tileHandler } from '@/app/tiles/tile'
import { circuitTile } from '@/lib/tiles/tiles'

export const dynamic = 'force-dynamic'

export const GET = tileHandler('circuits', circuitTile)

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
