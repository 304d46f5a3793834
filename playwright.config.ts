import { defineConfig, devices } from '@playwright/test'

/** An engineer may point the tests at a server that runs already; otherwise they start the demo on a database of their own. */
const given = process.env.BASE_URL
const port = Number(process.env.BROWSER_PORT ?? 3917)
const QUIET = [
  '--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--ignore-gpu-blocklist', '--disable-quic', '--no-first-run',
  '--disable-background-networking', '--disable-component-update', '--disable-sync', '--disable-dev-shm-usage',
]

export default defineConfig({
  testDir: 'test/browser',
  outputDir: 'test-results',
  workers: 1, // the tests share one database and one machine of two cores, half of it drawing maps in software
  forbidOnly: true,
  retries: process.env.CI ? 1 : 0, // a machine of two cores that draws maps in software stalls now and then; the report names what needed it as flaky
  timeout: 120_000,
  expect: { timeout: 15_000 },
  reporter: process.env.PLAYWRIGHT_JSON_OUTPUT_FILE ? [['list'], ['json']] : 'list',
  use: {
    ...devices['Desktop Chrome'],
    baseURL: given ?? `http://127.0.0.1:${port}`,
    viewport: { width: 1440, height: 900 },
    trace: 'retain-on-failure',
    launchOptions: { executablePath: process.env.CHROMIUM_PATH ?? '/usr/bin/chromium', args: QUIET },
  },
  webServer: given ? undefined : {
    command: 'node lib/launch/command.mjs demo --fresh --data .data/browser',
    env: { PORT: String(port) },
    url: `http://127.0.0.1:${port}/api/health/ready`,
    timeout: 300_000,
    stdout: 'ignore',
    stderr: 'pipe',
    gracefulShutdown: { signal: 'SIGTERM', timeout: 15_000 },
  },
})
