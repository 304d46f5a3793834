import { others } from '@/app/api/http/others'
import { tileHandler } from '@/app/tiles/tile'
import { trackTileQuery } from '@/lib/contract/survey-layer'
import { tracksAsked, trackTile } from '@/lib/tiles/tiles'

export const dynamic = 'force-dynamic'

export const GET = tileHandler('tracks', { query: trackTileQuery, filterOf: ({ survey }) => survey ?? [], asked: tracksAsked, cut: trackTile })

export const { POST, PUT, PATCH, DELETE, OPTIONS } = others('GET')
