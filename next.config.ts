import type { NextConfig } from 'next'

const config: NextConfig = {
  output: 'standalone',
  serverExternalPackages: ['pg', '@prisma/adapter-pg', 'pg-copy-streams'],
  poweredByHeader: false,
  typescript: { ignoreBuildErrors: true }, // `npm test` runs tsc by itself; the demo need not wait for it twice
}
export default config
