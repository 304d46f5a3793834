import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

/** One environment a worker: loading the sources anew for each of two hundred files cost more than their tests. A file leaves nothing behind. */
const isolate = false
const resolve = { alias: { '@': fileURLToPath(new URL('.', import.meta.url)) } }

export default defineConfig({
  test: {
    allowOnly: false,
    projects: [
      { resolve, test: { name: 'pure', isolate, include: ['test/{unit,published,property}/**/*.test.ts'], testTimeout: 30_000 } },
      {
        resolve,
        test: {
          name: 'store',
          isolate,
          include: ['test/store/**/*.test.ts'],
          globalSetup: ['test/store/global-setup.ts'],
          testTimeout: 180_000,
          hookTimeout: 240_000,
        },
      },
    ],
  },
})
