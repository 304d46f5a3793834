import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

const alias = { '@': fileURLToPath(new URL('.', import.meta.url)) }

export default defineConfig({
  resolve: { alias },
  test: {
    projects: [
      { resolve: { alias }, test: { name: 'pure', include: ['test/{unit,published,property}/**/*.test.ts'] } },
      {
        resolve: { alias },
        test: { name: 'store', include: ['test/store/**/*.test.ts'], globalSetup: ['test/store/global-setup.ts'], testTimeout: 60_000, hookTimeout: 120_000 },
      },
    ],
  },
})
