import { spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import pg from 'pg'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { startEmbeddedPostgres, type EmbeddedPostgres } from '@/lib/launch/embedded-postgres'
import { isLivePostgres, readPostmaster } from '@/lib/launch/postmaster'
import { unprivilegedLauncher } from '@/lib/launch/unprivileged'

let root = ''
let dataDir = ''
const started: EmbeddedPostgres[] = []

async function start(): Promise<EmbeddedPostgres> {
  const database = await startEmbeddedPostgres({ dataDir, database: 'trial' })
  started.push(database)
  return database
}

async function ask<T extends pg.QueryResultRow>(url: string, text: string): Promise<T[]> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    return (await client.query<T>(text)).rows
  } finally {
    await client.end()
  }
}

/** Starts an owner of the database in a process of its own and returns it once its row is committed. */
async function startOwner() {
  const owner = spawn(process.execPath, ['--import', 'tsx', path.join('test', 'fixtures', 'launch', 'own-database.mts'), dataDir], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  await once(owner.stdout, 'data')
  return owner
}

beforeAll(() => {
  root = fs.mkdtempSync(path.join(os.tmpdir(), 'spanledger-launch-'))
  fs.chmodSync(root, 0o755)
  dataDir = path.join(root, 'postgres')
})
afterEach(async () => {
  for (const database of started.splice(0).reverse()) await database.stop()
})
afterAll(() => fs.rmSync(root, { recursive: true, force: true }))

describe('the embedded database', () => {
  it('starts for whoever runs this, on the loopback only, without a socket', async () => {
    const { url } = await start()
    const [settings] = await ask<{ listen: string; sockets: string }>(
      url, "SELECT current_setting('listen_addresses') AS listen, current_setting('unix_socket_directories') AS sockets")
    expect(settings).toEqual({ listen: '127.0.0.1', sockets: '' })
  })

  it('lets nobody in without its password, which only its owner can read', async () => {
    const { url } = await start()
    expect(fs.statSync(`${dataDir}.password`).mode & 0o777).toBe(0o600)
    const wrong = new URL(url)
    wrong.password = 'guess'
    await expect(ask(wrong.href, 'SELECT 1')).rejects.toThrow(/password authentication failed/)
  })

  it('is joined where it runs already, and only its owner stops it', async () => {
    const first = await start()
    const second = await start()
    expect(first).toMatchObject({ reused: false, owned: true })
    expect(second).toMatchObject({ reused: true, owned: false, port: first.port })
    await second.stop()
    expect(await ask(first.url, 'SELECT 1 AS one')).toEqual([{ one: 1 }])
  })

  it('takes the number of a dead or foreign process in its directory for no server', async () => {
    const first = await start()
    await first.stop()
    for (const pid of [process.pid, 2 ** 22 - 3]) {
      fs.writeFileSync(path.join(dataDir, 'postmaster.pid'), `${pid}\n${dataDir}\n0\n1\n`)
      if (process.platform === 'linux') expect(isLivePostgres(pid)).toBe(false)
      const next = await start()
      expect(next.reused).toBe(false)
      await next.stop()
    }
  })

  it('keeps its rows over a stop', async () => {
    const first = await start()
    await ask(first.url, 'CREATE TABLE remembered AS SELECT 7 AS seven')
    await first.stop()
    const second = await start()
    expect(await ask(second.url, 'SELECT seven FROM remembered')).toEqual([{ seven: 7 }])
  })
})

describe('after kill -9 of its owner', () => {
  it('no committed row is lost and the next start works', async () => {
    const owner = await startOwner()
    owner.kill('SIGKILL')
    await once(owner, 'exit')
    const next = await start()
    expect(next.owned).toBe(true)
    expect(await ask(next.url, 'SELECT count(*)::int AS rows FROM kept')).toEqual([{ rows: 1 }])
  })

  it('no orphan is left on Linux; elsewhere the next start takes it over', async () => {
    const owner = await startOwner()
    const server = readPostmaster(dataDir)
    expect(isLivePostgres(server?.pid ?? 0)).toBe(true)
    owner.kill('SIGKILL')
    await once(owner, 'exit')
    if (process.platform !== 'linux') return expect(await start()).toMatchObject({ reused: true, owned: true })
    for (let waits = 0; waits < 100 && isLivePostgres(server?.pid ?? 0); waits++) await sleep(50)
    expect(isLivePostgres(server?.pid ?? 0)).toBe(false)
  })

  it('a server that another owner still runs is not stopped by those who join it', async () => {
    const owner = await startOwner()
    const joined = await start()
    expect(joined).toMatchObject({ reused: true, owned: false })
    await joined.stop()
    expect(await ask(joined.url, 'SELECT 1 AS one')).toEqual([{ one: 1 }])
    owner.kill('SIGKILL')
    await once(owner, 'exit')
  })
})

describe('a launcher', () => {
  it('leaves the programs of an ordinary user alone', () => {
    expect(unprivilegedLauncher(false, false).invoke('/bin/true', ['-x'])).toEqual({ command: '/bin/true', args: ['-x'] })
  })

  it('shows PostgreSQL a user that is not root, whoever runs this, with user namespaces or without', () => {
    const isRoot = process.getuid?.() === 0
    for (const launcher of isRoot ? [unprivilegedLauncher(), unprivilegedLauncher(true, false)] : [unprivilegedLauncher()]) {
      const { command, args, ...owner } = launcher.invoke('id', ['-u'], true)
      expect(Number(spawnSync(command, args, { ...owner, encoding: 'utf8' }).stdout)).toBeGreaterThan(0)
    }
  })
})
