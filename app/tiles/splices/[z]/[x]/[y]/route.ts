import { tileHandler } from '@/app/tiles/tile'
import { spliceTile } from '@/lib/tiles/tiles'

export const dynamic = 'force-dynamic'

export const GET = tileHandler('splices', spliceTile)
