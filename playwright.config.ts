import { defineConfig, devices } from '@playwright/test'
import { findChromium } from './lib/launch/chromium'

/** An engineer may point the tests at a server that runs already; otherwise each project starts the demo on a database of its own. */
const given = process.env.BASE_URL
const port = Number(process.env.BROWSER_PORT ?? 3917)
const QUIET = [
  '--no-sandbox', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync',
  '--disable-dev-shm-usage',
]
const DRAWN = ['--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--ignore-gpu-blocklist']

/**
 * Drawing a map in software costs more than all else of a page, so only tests of the map (`@map`) draw one. The others use the
 * product as on a remote desktop without graphics, where list, sheets and strip do the work. A map of half the pixels each way is drawn two to three
 * times as fast, by the same code. `after` is the distance between their ports.
 */
const PROJECTS = [
  { name: 'map', grep: /@map/, args: [...QUIET, ...DRAWN], data: '.data/browser-map', after: 2, pixelRatio: 0.5 },
  { name: 'pages', grepInvert: /@map/, args: [...QUIET, '--disable-3d-apis'], data: '.data/browser', after: 0, pixelRatio: 1 },
]
const address = (after: number) => `http://127.0.0.1:${port + after}`

export default defineConfig({
  testDir: 'test/browser',
  outputDir: 'test-results',
  workers: given ? 1 : PROJECTS.length, // the tests of a project share a database, those of two projects nothing
  forbidOnly: true,
  retries: process.env.CI ? 1 : 0, // a machine of two cores that draws maps in software stalls now and then; the report names what needed it as flaky
  timeout: 180_000,
  expect: { timeout: 30_000 },
  reporter: process.env.PLAYWRIGHT_JSON_OUTPUT_FILE ? [['list'], ['json']] : 'list',
  use: {
    ...devices['Desktop Chrome'],
    viewport: { width: 1440, height: 900 },
    trace: 'on-first-retry', // recording every test films what is drawn in software
  },
  projects: PROJECTS.map(({ data: _, after, args, pixelRatio, ...project }) => ({
    ...project,
    workers: 1,
    use: { baseURL: given ?? address(after), deviceScaleFactor: pixelRatio, launchOptions: { executablePath: findChromium(), args } },
  })),
  webServer: given ? undefined : PROJECTS.map(({ data, after }) => ({
    command: `node lib/launch/command.mjs demo --fresh --data ${data}`,
    env: { PORT: String(port + after) },
    url: `${address(after)}/api/health/ready`,
    timeout: 600_000,
    stdout: 'ignore',
    stderr: 'pipe',
    gracefulShutdown: { signal: 'SIGTERM', timeout: 15_000 },
  })),
})
