import { others } from '@/app/api/http/others'
import { tileHandler } from '@/app/tiles/tile'
import { filterToQuery, tileQuery, toSpliceFilter } from '@/lib/contract/filter'
import { spliceTile } from '@/lib/tiles/tiles'

export const dynamic = 'force-dynamic'

export const GET = tileHandler('splices', { query: tileQuery, filterOf: toSpliceFilter, asked: filterToQuery, cut: spliceTile })

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
