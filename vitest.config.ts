import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

const resolve = { alias: { '@': fileURLToPath(new URL('.', import.meta.url)) } }

export default defineConfig({
  test: {
    allowOnly: false,
    projects: [
      { resolve, test: { name: 'pure', include: ['test/{unit,published,property}/**/*.test.ts'], testTimeout: 30_000 } },
      {
        resolve,
        test: {
          name: 'store',
          include: ['test/store/**/*.test.ts'],
          globalSetup: ['test/store/global-setup.ts'],
          testTimeout: 180_000,
          hookTimeout: 240_000,
        },
      },
    ],
  },
})
