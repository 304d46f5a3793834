import { spawn, spawnSync, type ChildProcess } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import path from 'node:path'
import { expect, test } from '@playwright/test'

const DIR = path.join('.data', 'browser-demo')
const PORT = Number(process.env.BROWSER_PORT ?? 3917) + 1
const URL = `http://127.0.0.1:${PORT}`
const AS_PROGRAM = { Authorization: 'Bearer browser-test' }

let demo: ChildProcess | undefined

/** Starts the demo on a database of its own and resolves, once it prints its address, with how long that took in seconds. */
async function start(...args: string[]): Promise<{ seconds: number; steps: string }> {
  const began = performance.now()
  const child = spawn(process.execPath, [path.join('lib', 'launch', 'command.mjs'), 'demo', '--data', DIR, ...args], {
    env: { ...process.env, PORT: String(PORT) }, stdio: ['ignore', 'pipe', 'pipe'],
  })
  demo = child
  let [printed, steps] = ['', '']
  child.stdout.on('data', (bytes: Buffer) => { printed += bytes.toString() })
  child.stderr.on('data', (bytes: Buffer) => { steps += bytes.toString() })
  await expect.poll(() => (child.exitCode === null ? printed : `ended: ${steps}`), { timeout: 120_000 }).toMatch(/Spanledger is at|ended/)
  expect(printed).toContain(`Spanledger is at ${URL}`)
  return { seconds: (performance.now() - began) / 1000, steps }
}

function descendants(pid: number | undefined): number[] {
  const table = spawnSync('ps', ['-eo', 'pid=,ppid='], { encoding: 'utf8' }).stdout.trim().split('\n').map((line) => line.trim().split(/\s+/).map(Number))
  const children = table.filter(([, parent]) => parent === pid).map(([child]) => child ?? 0)
  return [...children, ...children.flatMap(descendants)]
}

const isAlive = (pid: number): boolean => {
  try {
    return process.kill(pid, 0)
  } catch {
    return false
  }
}

async function end(signal: NodeJS.Signals): Promise<{ code: number | null; family: number[]; lastWords: () => string }> {
  if (!demo) throw new Error('The demo does not run.')
  const family = descendants(demo.pid)
  let lastWords = ''
  demo.stdout?.on('data', (bytes: Buffer) => { lastWords += bytes.toString() })
  const ended = once(demo, 'exit')
  demo.kill(signal)
  const [code] = (await ended) as [number | null]
  demo = undefined
  return { code, family, lastWords: () => lastWords }
}

test.describe.configure({ mode: 'serial' })
test.afterAll(async () => {
  if (demo) await end('SIGINT')
  fs.rmSync(DIR, { recursive: true, force: true })
})

test.describe('the demo', () => {
  test('starts over with --fresh, and Ctrl-C ends everything it started', async ({ request }) => {
    const { steps } = await start('--fresh')
    expect(steps).toMatch(/Importing lines\.geojson … \d+\.\d s/)
    const { counts } = await (await request.get(`${URL}/api/v1/state`)).json() as { counts: Record<string, number> }
    expect(Object.values(counts).reduce((sum, n) => sum + n, 0)).toBeGreaterThan(2_000)
    const { code, family, lastWords } = await end('SIGINT')
    expect(code).toBe(0)
    await expect.poll(lastWords).toContain(`Stopped. What was done is kept in ${DIR}: npm run demo -- --data ${DIR} goes on with it`)
    expect(family.length).toBeGreaterThanOrEqual(2)
    await expect.poll(() => family.filter(isAlive), { timeout: 10_000 }).toEqual([]) // the last may still be on its way out of a busy machine
  })

  test('starts again in seconds, loading nothing, and keeps over kill -9 what was committed', async ({ request }) => {
    const { seconds, steps } = await start()
    expect(steps).not.toContain('Importing')
    expect(seconds).toBeLessThan(20)
    const put = await request.put(`${URL}/api/v1/settings`, { headers: AS_PROGRAM, data: { information_mark: 'Kept over a kill' } })
    expect(put.status()).toBe(200)
    const { family } = await end('SIGKILL')
    if (process.platform === 'linux') await expect.poll(() => family.filter(isAlive), { timeout: 10_000 }).toEqual([])
    await start()
    expect(await (await request.get(`${URL}/api/v1/settings`)).json()).toMatchObject({ information_mark: 'Kept over a kill' })
  })

  // The servers of the other projects are on the ports next to it.
  for (const asked of [PORT, PORT + 50]) test(`says where it runs already, asked for port ${asked - PORT} beside it`, async () => {
    const second = spawnSync(process.execPath, [path.join('lib', 'launch', 'command.mjs'), 'demo', '--data', DIR], {
      env: { ...process.env, PORT: String(asked) }, encoding: 'utf8',
    })
    expect(second.status).toBe(1)
    expect(second.stderr).toContain(`runs already at ${URL}`)
  })
})
