import { tileHandler } from '@/app/tiles/tile'
import { circuitTile } from '@/lib/tiles/tiles'

export const dynamic = 'force-dynamic'

export const GET = tileHandler('circuits', circuitTile)
