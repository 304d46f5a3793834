import { promisify } from 'node:util'
import { gzip } from 'node:zlib'

const compress = promisify(gzip)

/**
 * Next drops the Content-Encoding of a handler and compresses no vector tiles by itself. So next.config.ts sets the header for these
 * addresses where a request matches, and the handler compresses every body for the same requests.
 */
export const TILE_SOURCE = '/tiles/:layer(splices|circuits|survey|tracks)/:z/:x/:y'
export const TAKES_GZIP = '.*\\bgzip\\b.*'

const takesGzip = new RegExp(`^${TAKES_GZIP}$`)

/** The answer with its body compressed where the request takes it. */
export async function compressed(request: Request, response: Response): Promise<Response> {
  if (response.body === null || !takesGzip.test(request.headers.get('accept-encoding') ?? '')) return response
  const bytes = await compress(await response.arrayBuffer(), { level: 4 })
  return new Response(Uint8Array.from(bytes), { status: response.status, headers: response.headers })
}
