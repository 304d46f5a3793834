import { promisify } from 'node:util'
import { gzip } from 'node:zlib'
import { accessOf } from '@/app/api/http/access'
import { caught } from '@/app/api/http/handler'
import { parseQuery } from '@/app/api/http/parse'
import { problem } from '@/app/api/http/problem'
import { spliceFilterQuery, toSpliceFilter, type SpliceFilter } from '@/lib/contract/filter'
import type { Scope } from '@/lib/store/scope'
import { isTileAddress, tileEtag, type Tile } from '@/lib/tiles/tiles'

type Cut = (scope: Scope, tile: { z: number; x: number; y: number }, filter: SpliceFilter) => Promise<Tile>

const compress = promisify(gzip)

/** Answers with one vector tile of a layer; the browser keeps it and asks each time whether it still holds. */
export const tileHandler = (layer: 'splices' | 'circuits', cut: Cut) => caught(async (request, context) => {
  const { z, x, y } = await context.params
  const tile = { z: Number(z), x: Number(x), y: Number(y) }
  if (!isTileAddress(tile, layer)) {
    return problem(404, {
      code: 'no-such-tile', detail: `There is no tile ${z}/${x}/${y}.`, remedy: 'Ask for whole numbers within the zoom levels there are.',
    })
  }
  const query = parseQuery(request, spliceFilterQuery)
  if (!query.ok) return query.error
  const { scope } = accessOf(request)
  const filter = toSpliceFilter(query.value)
  const held = request.headers.get('if-none-match')
  if (held !== null && held.replace(/^W\//, '') === await tileEtag(scope, filter)) return new Response(null, { status: 304, headers: headersFor(held) })
  const { bytes, etag } = await cut(scope, tile, filter)
  if (bytes.length === 0) return new Response(null, { status: 204, headers: headersFor(etag) })
  const zipped = /\bgzip\b/.test(request.headers.get('accept-encoding') ?? '')
  return new Response(Uint8Array.from(zipped ? await compress(bytes, { level: 4 }) : bytes), {
    headers: {
      ...headersFor(etag), 'Content-Type': 'application/vnd.mapbox-vector-tile', ...zipped && { 'Content-Encoding': 'gzip' },
    },
  })
})

const headersFor = (etag: string) => ({ ETag: etag, 'Cache-Control': 'private, no-cache', Vary: 'Accept-Encoding' })
