import { NextResponse, type NextRequest } from 'next/server'
import { isKnownHost, UNKNOWN_HOST } from '@/app/api/http/known-host'

const DEVELOPING = process.env.NODE_ENV === 'development'

/**
 * A content policy with a fresh nonce for every page. Only scripts of this origin that the server itself wrote may run.
 * Map data may also come over https, since the operator can name a basemap of their own.
 */
export function proxy(request: NextRequest): NextResponse {
  if (!isKnownHost(request.headers.get('host'))) return new NextResponse(`${UNKNOWN_HOST.detail} ${UNKNOWN_HOST.remedy}`, { status: 421 })
  const nonce = Buffer.from(crypto.randomUUID()).toString('base64')
  const policy = [
    "default-src 'self'",
    `script-src 'self' 'nonce-${nonce}'${DEVELOPING ? " 'unsafe-eval'" : ''}`,
    "style-src 'self' 'unsafe-inline'", // React and MapLibre write style attributes
    "img-src 'self' data: blob: https:",
    "connect-src 'self' https:",
    "font-src 'self' https:",
    "worker-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join('; ')
  const headers = new Headers(request.headers)
  headers.set('Content-Security-Policy', policy)
  const response = NextResponse.next({ request: { headers } })
  response.headers.set('Content-Security-Policy', policy)
  return response
}

/** Pages only. Uploads must stay out: what passes through here loses everything after 10 MB without a word. */
export const config = { matcher: ['/((?!api/|tiles/|_next/|maplibre/|fonts/|.*\\.).*)'] }
