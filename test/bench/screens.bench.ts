import { spawn, type ChildProcess } from 'node:child_process'
import { chromium, type Page } from '@playwright/test'
import { reassessNetwork } from '@/lib/cases/reassess-network'
import { buildApp, needsBuild } from '@/lib/launch/build-app'
import { startEmbeddedPostgres } from '@/lib/launch/embedded-postgres'
import { migrate } from '@/lib/launch/migrate'
import { allScope } from '@/lib/store/all-scope'
import { closeDatabase } from '@/lib/store/database'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { fillStore, MILLION, SPLICES_EACH, storeOf } from './store/million'

/**
 * Operations as a person has it in a browser over 1,000,000 splices of 1,000 circuits, and over 20,000 as the peer: opening, filtering, panning, the
 * strip of a circuit, the survey layer, and the answers behind them. The map is drawn in software here, so panning is told by what holds up the page.
 */
const SMALL = 20_000
const PORT = Number(process.env.BENCH_PORT ?? 3927)
const ORIGIN = `http://127.0.0.1:${PORT}`
const CHROMIUM = process.env.CHROMIUM_PATH ?? '/usr/bin/chromium'
const FLAGS = ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--ignore-gpu-blocklist', '--disable-quic', '--disable-dev-shm-usage']
const RUNS = 9
const say = (text: string) => process.stdout.write(`${text}\n`)
const median = (values: number[]) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN

const rows = (page: Page) => page.getByRole('listbox', { name: 'Splices, worst first' }).getByRole('option')
const still = (page: Page) => page.locator('[data-network-map][data-idle="1"]').waitFor({ timeout: 120_000 })

/** The longest since the last time, ms; 0 where none took 50 ms. */
const holdUps = (page: Page): Promise<number> => page.evaluate(() => {
  const kept = window as unknown as { held: number }
  const { held } = kept
  kept.held = 0
  return held
})

/** Milliseconds by what was done. */
type Figures = Map<string, number>

if (needsBuild()) {
  say('Building')
  await buildApp()
}
const small = await measured(SMALL)
const large = await measured(MILLION)
say(`\n${'ms'.padEnd(66)}${String(SMALL).padStart(10)}${String(MILLION).padStart(10)}${'ratio'.padStart(8)}`)
for (const [what, ms] of large) {
  const peer = small.get(what) ?? NaN
  say(`${what.padEnd(66)}${peer.toFixed(0).padStart(10)}${ms.toFixed(0).padStart(10)}${(ms / peer).toFixed(1).padStart(8)}`)
}

async function measured(splices: number): Promise<Figures> {
  const store = await startEmbeddedPostgres(storeOf(splices))
  process.env.DATABASE_URL = store.url
  try {
    await migrate(store.url)
    await fillStore(splices)
    await assessed()
    await closeDatabase()
    const app = await serve(store.url)
    try {
      const figures: Figures = new Map()
      await answers(figures)
      await screens(figures)
      return figures
    } finally {
      app.kill()
    }
  } finally {
    await closeDatabase()
    await store.stop()
  }
}

/** Once: every splice has its class for a month, one in a hundred since today, as after an import. */
async function assessed(): Promise<void> {
  const db = database()
  if (await db.row(sql`SELECT FROM splice_state WHERE ratio IS NULL LIMIT 1`)) await reassessNetwork(allScope(), async () => undefined)
  if (await db.row(sql`SELECT FROM splice_state WHERE splice_id % 100 > 0 AND updated_at > now() - interval '29 days' LIMIT 1`)) {
    await db.run(sql`UPDATE assessment SET assessed_at = assessed_at - interval '30 days' WHERE splice_id % 100 > 0 OR class = 'unknown'`)
    await db.run(sql`UPDATE splice_state SET updated_at = updated_at - interval '30 days' WHERE splice_id % 100 > 0`)
    await db.run(sql`VACUUM ANALYZE`)
  }
}

async function serve(url: string): Promise<ChildProcess> {
  const app = spawn(process.execPath, ['lib/launch/start.mjs'], { env: { ...process.env, DATABASE_URL: url, PORT: String(PORT) }, stdio: ['ignore', 'ignore', 'inherit'] })
  for (let tries = 0; tries < 240; tries++) {
    if (await fetch(`${ORIGIN}/api/health/ready`).then((r) => r.ok, () => false)) return app
    await new Promise((resolve) => setTimeout(resolve, 500))
  }
  app.kill()
  throw new Error('The server did not start within two minutes.')
}

/** Medians, the first of each left out: it may build an index that the next ones use. */
async function answers(figures: Figures): Promise<void> {
  const { data_version: version } = await (await fetch(`${ORIGIN}/api/v1/state`)).json() as { data_version: number }
  const asked: [string, string][] = [
    ['state', '/api/v1/state'],
    ['watch list, first rows in the order of risk', '/api/v1/splices?sort=risk&limit=100'],
    ['the same of critical ones', '/api/v1/splices?sort=risk&limit=100&class=critical'],
    ['the same in a view', '/api/v1/splices?sort=risk&limit=100&bbox=-109.9,41,-109.7,41.3'],
    ['circuits', '/api/v1/circuits'],
    ['strip of a circuit', '/api/v1/circuits/1/strip'],
    ['tile of splices, z7', `/tiles/splices/7/24/47?v=${version}`],
    ['tile of splices, z12', `/tiles/splices/12/797/1528?v=${version}`],
  ]
  for (const [what, path] of asked) {
    const times: number[] = []
    for (let run = 0; run <= RUNS; run++) {
      const startedMs = performance.now()
      const answer = await fetch(ORIGIN + path)
      await answer.arrayBuffer()
      if (!answer.ok) throw new Error(`${path} was answered by ${answer.status}.`)
      if (run > 0) times.push(performance.now() - startedMs)
    }
    figures.set(`answer: ${what}`, median(times))
  }
}

async function screens(figures: Figures): Promise<void> {
  const browser = await chromium.launch({ executablePath: CHROMIUM, args: FLAGS })
  try {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, baseURL: ORIGIN })
    await page.goto('/operations')
    await still(page) // the browser's own start is not the product's
    const timed = async (what: string, act: () => Promise<unknown>) => {
      const startedMs = performance.now()
      await act()
      figures.set(what, performance.now() - startedMs)
    }
    await timed('opening: first row of the watch list', async () => {
      await page.goto('/operations')
      await rows(page).nth(1).waitFor()
    })
    await timed('  and until the map is drawn', () => still(page))
    await page.evaluate(watchForHoldUps)
    const legend = page.getByRole('group', { name: 'Condition classes on the map' })
    await timed('filtering: without the sound ones, until the list has followed', async () => {
      await Promise.all([page.waitForResponse((r) => r.url().includes('/api/v1/splices?') && r.url().includes('class=')), legend.getByRole('button', { name: /^sound/ }).click()])
      await rows(page).nth(1).waitFor()
    })
    await still(page)
    await holdUps(page)
    await page.locator('#plan canvas').first().focus()
    for (let step = 0; step < 12; step++) await page.keyboard.press(step % 2 === 0 ? 'ArrowRight' : 'ArrowDown')
    await still(page)
    figures.set('panning by twelve steps: what held up the page longest', await holdUps(page))
    await timed('strip of the largest circuit, from its address', async () => {
      await page.goto('/operations?sel=circuit-1')
      await page.locator('[data-splice]').first().waitFor()
    })
    await still(page)
    await page.evaluate(watchForHoldUps)
    const box = await page.getByRole('group', { name: /^Strip of / }).boundingBox()
    if (!box) throw new Error('The strip is not on the screen.')
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2)
    for (let turn = 0; turn < 6; turn++) {
      await page.mouse.wheel(0, -300)
      await page.waitForTimeout(120)
    }
    await still(page)
    figures.set(`zooming its strip of ${SPLICES_EACH} splices: what held up the page longest`, await holdUps(page))
    await timed('survey layer, from its address, until it is drawn', async () => {
      await page.goto('/operations?layer=survey')
      await still(page)
    })
  } finally {
    await browser.close()
  }
}

/** Long tasks of the page (W3C Long Tasks API: 50 ms and more). */
function watchForHoldUps(): void {
  const kept = window as unknown as { held: number }
  kept.held = 0
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) kept.held = Math.max(kept.held, duration)
  }).observe({ type: 'longtask' })
}
