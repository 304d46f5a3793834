import { problem } from './problem'

/**
 * Null when a request that changes something comes from our own pages or carries a bearer token; otherwise the refusal.
 * Browsers add cookies to what other sites make them send, but neither this Origin nor, without asking first, a bearer token.
 */
export function refuseForeign(request: Request): Response | null {
  if (/^bearer \S/i.test(request.headers.get('authorization') ?? '')) return null
  const site = request.headers.get('sec-fetch-site')
  const origin = request.headers.get('origin')
  if (site !== null && site !== 'same-origin') return refusal()
  if (origin !== null) return hostOf(origin) === hostAsked(request) ? null : refusal()
  return site === 'same-origin' ? null : refusal()
}

// Behind a reverse proxy the browser's Host arrives under another name. A foreign page cannot set either header.
const hostAsked = (request: Request) => request.headers.get('x-forwarded-host') ?? request.headers.get('host')

/** 'https://host' as the address that was asked reads, behind a reverse proxy that of the proxy. */
export function originAsked(request: Request): string {
  const own = new URL(request.url)
  const [host, forwarded] = [hostAsked(request) ?? own.host, request.headers.get('x-forwarded-proto')]
  const protocol = forwarded === 'https' || forwarded === 'http' ? `${forwarded}:` : own.protocol
  return URL.canParse(`${protocol}//${host}`) ? new URL(`${protocol}//${host}`).origin : own.origin
}

function hostOf(origin: string): string | null {
  return URL.canParse(origin) ? new URL(origin).host : null
}

const refusal = () => problem(403, {
  code: 'foreign-origin',
  detail: 'This request would change something and does not come from a page of this server.',
  remedy: 'Send it from the product itself; a program sends the header Authorization: Bearer followed by its token.',
})
