import { accessOf } from '@/app/api/http/access'
import { caught } from '@/app/api/http/handler'
import { parseQuery } from '@/app/api/http/parse'
import { problem } from '@/app/api/http/problem'
import { tileQuery, toSpliceFilter, type SpliceFilter } from '@/lib/contract/filter'
import type { Scope } from '@/lib/store/scope'
import { isTileAddress, tileEtag, type Tile } from '@/lib/tiles/tiles'
import { compressed } from './compression'

interface TileAddress { z: number; x: number; y: number }
type Layer = 'splices' | 'circuits'
type Cut = (scope: Scope, tile: TileAddress, filter: SpliceFilter) => Promise<Tile>
type Handler = ReturnType<typeof caught>

/** Answers with one vector tile of a layer; the browser keeps it and asks each time whether it still holds. */
export const tileHandler = (layer: Layer, cut: Cut): Handler => {
  const answer = caught(async (request, context) => {
    const { z, x, y } = await context.params
    const tile = { z: Number(z), x: Number(x), y: Number(y) }
    return isTileAddress(tile, layer) ? answerTile(request, tile, cut) : noSuchTile(`${z}/${x}/${y}`)
  })
  return async (request, context) => compressed(request, await answer(request, context))
}

async function answerTile(request: Request, tile: TileAddress, cut: Cut): Promise<Response> {
  const query = parseQuery(request, tileQuery)
  if (!query.ok) return query.error
  const { scope } = accessOf(request)
  const filter = toSpliceFilter(query.value)
  const held = request.headers.get('if-none-match')?.replace(/^W\//, '')
  if (held !== undefined && held === await tileEtag(scope, filter)) return new Response(null, { status: 304, headers: headersFor(held) })
  const { bytes, etag } = await cut(scope, tile, filter)
  if (bytes.length === 0) return new Response(null, { status: 204, headers: headersFor(etag) })
  return new Response(Uint8Array.from(bytes), { headers: { ...headersFor(etag), 'Content-Type': 'application/vnd.mapbox-vector-tile' } })
}

const headersFor = (etag: string) => ({ ETag: etag, 'Cache-Control': 'private, no-cache', Vary: 'Accept-Encoding' })

const noSuchTile = (address: string): Response => problem(404, {
  code: 'no-such-tile', detail: `There is no tile ${address}.`, remedy: 'Ask for whole numbers within the zoom levels there are.',
})
