import type { z } from 'zod'
import { accessOf } from '@/app/api/http/access'
import { caught } from '@/app/api/http/handler'
import { parseQuery } from '@/app/api/http/parse'
import { problem } from '@/app/api/http/problem'
import type { Scope } from '@/lib/store/scope'
import { etagNow, isTileAddress, type Tile, type TileLayer } from '@/lib/tiles/tiles'
import { compressed } from './compression'

interface TileAddress { z: number; x: number; y: number }
type Handler = ReturnType<typeof caught>

/** What a layer's tiles take behind the question mark, and what they make of it. */
export interface TileKind<Q extends z.ZodObject, F> {
  query: Q
  filterOf(query: z.infer<Q>): F
  /** The same for the same tiles. */
  asked(filter: F): string
  cut(scope: Scope, tile: TileAddress, filter: F): Promise<Tile>
}

/** Answers with one vector tile of a layer; the browser keeps it and asks each time whether it still holds. */
export const tileHandler = <Q extends z.ZodObject, F>(layer: TileLayer, kind: TileKind<Q, F>): Handler => {
  const answer = caught(async (request, context) => {
    const { z, x, y } = await context.params
    const tile = { z: Number(z), x: Number(x), y: Number(y) }
    return isTileAddress(tile, layer) ? answerTile(request, tile, kind) : noSuchTile(`${z}/${x}/${y}`)
  })
  return async (request, context) => compressed(request, await answer(request, context))
}

async function answerTile<Q extends z.ZodObject, F>(request: Request, tile: TileAddress, kind: TileKind<Q, F>): Promise<Response> {
  const query = parseQuery(request, kind.query)
  if (!query.ok) return query.error
  const { scope } = accessOf(request)
  const filter = kind.filterOf(query.value)
  const held = request.headers.get('if-none-match')?.replace(/^W\//, '')
  if (held !== undefined && held === await etagNow(scope, kind.asked(filter))) return new Response(null, { status: 304, headers: headersFor(held) })
  const { bytes, etag } = await kind.cut(scope, tile, filter)
  if (bytes.length === 0) return new Response(null, { status: 204, headers: headersFor(etag) })
  return new Response(Uint8Array.from(bytes), { headers: { ...headersFor(etag), 'Content-Type': 'application/vnd.mapbox-vector-tile' } })
}

const headersFor = (etag: string) => ({ ETag: etag, 'Cache-Control': 'private, no-cache', Vary: 'Accept-Encoding' })

const noSuchTile = (address: string): Response => problem(404, {
  code: 'no-such-tile', detail: `There is no tile ${address}.`, remedy: 'Ask for whole numbers within the zoom levels there are.',
})
