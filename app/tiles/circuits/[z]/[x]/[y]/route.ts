import { others } from '@/app/api/http/others'
import { tileHandler } from '@/app/tiles/tile'
import { filterToQuery, tileQuery, toSpliceFilter } from '@/lib/contract/filter'
import { circuitTile } from '@/lib/tiles/tiles'

export const dynamic = 'force-dynamic'

export const GET = tileHandler('circuits', { query: tileQuery, filterOf: toSpliceFilter, asked: filterToQuery, cut: circuitTile })

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
