import type { NextConfig } from 'next'
import { TAKES_GZIP, TILE_SOURCE } from './app/tiles/compression'

// Pages get their content policy, with a fresh nonce, from proxy.ts; these hold for every answer.
const everywhere = [
  { key: 'X-Content-Type-Options', value: 'nosniff' },
  { key: 'X-Frame-Options', value: 'DENY' },
  { key: 'Referrer-Policy', value: 'same-origin' },
  { key: 'Cross-Origin-Opener-Policy', value: 'same-origin' },
  { key: 'Cross-Origin-Resource-Policy', value: 'same-origin' },
  { key: 'Permissions-Policy', value: 'camera=(), microphone=(), geolocation=(self), payment=(), usb=()' },
]
const data = [{ key: 'Content-Security-Policy', value: "default-src 'none'; frame-ancestors 'none'" }]
const revalidated = [{ key: 'Cache-Control', value: 'public, max-age=0, must-revalidate' }]

const config: NextConfig = {
  output: 'standalone',
  outputFileTracingExcludes: { '/*': ['.data/**', '.bench/**', 'test/**', 'seed/**'] },
  serverExternalPackages: ['pg', 'pg-copy-streams'],
  poweredByHeader: false,
  typescript: { ignoreBuildErrors: true }, // `npm test` runs tsc by itself; the demo need not wait for it twice
  headers: async () => [
    { source: '/:path*', headers: everywhere },
    { source: '/api/:path*', headers: data },
    { source: '/tiles/:path*', headers: data },
    {
      source: TILE_SOURCE,
      has: [{ type: 'header', key: 'accept-encoding', value: TAKES_GZIP }],
      headers: [{ key: 'Content-Encoding', value: 'gzip' }],
    },
    { source: '/:path(.+\\.pmtiles|maplibre/.+|fonts/.+)', headers: revalidated },
  ],
}
export default config
