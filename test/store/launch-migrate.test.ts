import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import pg from 'pg'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { startEmbeddedPostgres, type EmbeddedPostgres } from '@/lib/launch/embedded-postgres'
import { migrate, MIGRATIONS_DIR } from '@/lib/launch/migrate'

let root = ''
let database: EmbeddedPostgres
let client: pg.Client
let url = ''
let migrations = ''
let trial = 0

beforeAll(async () => {
  root = fs.mkdtempSync(path.join(os.tmpdir(), 'spanledger-migrate-'))
  fs.chmodSync(root, 0o755)
  database = await startEmbeddedPostgres({ dataDir: path.join(root, 'postgres'), database: 'trials' })
  client = new pg.Client({ connectionString: database.url })
  await client.connect()
})
afterAll(async () => {
  await client.end()
  await database.stop()
  fs.rmSync(root, { recursive: true, force: true })
})
beforeEach(async () => {
  const name = `trial_${++trial}`
  await client.query(`CREATE DATABASE ${name}`)
  url = database.url.replace(/[^/]+$/, name)
  migrations = path.join(root, name)
})

function write(name: string, sql: string): void {
  fs.mkdirSync(path.join(migrations, name), { recursive: true })
  fs.writeFileSync(path.join(migrations, name, 'migration.sql'), sql)
}

async function ask<T extends pg.QueryResultRow>(text: string): Promise<T[]> {
  const own = new pg.Client({ connectionString: url })
  await own.connect()
  try {
    return (await own.query<T>(text)).rows
  } finally {
    await own.end()
  }
}

describe('migrations', () => {
  it('of the product apply to an empty database, and a second time there is nothing to do', async () => {
    const all = fs.readdirSync(MIGRATIONS_DIR).filter((name) => fs.existsSync(path.join(MIGRATIONS_DIR, name, 'migration.sql'))).sort()
    expect(all.length).toBeGreaterThan(0)
    expect(await migrate(url)).toEqual(all)
    expect(await migrate(url)).toEqual([])
    expect(await ask('SELECT count(*)::int AS splices FROM splice')).toEqual([{ splices: 0 }])
  })

  it('are applied once by replicas that start together', async () => {
    const applied = await Promise.all([migrate(url), migrate(url), migrate(url)])
    expect(applied.filter((names) => names.length > 0)).toHaveLength(1)
  })

  it('apply in name order and are recorded as Prisma records them', async () => {
    write('2_second', 'INSERT INTO t VALUES (1);')
    write('1_first', 'CREATE TABLE t (n int);')
    expect(await migrate(url, migrations)).toEqual(['1_first', '2_second'])
    expect(await ask('SELECT migration_name, applied_steps_count AS steps, finished_at IS NOT NULL AS finished, length(checksum) AS hex '
      + 'FROM _prisma_migrations ORDER BY started_at')).toEqual([
      { migration_name: '1_first', steps: 1, finished: true, hex: 64 }, { migration_name: '2_second', steps: 1, finished: true, hex: 64 },
    ])
  })

  it('that fail leave nothing of themselves and are named, then and at the next start', async () => {
    write('1_bad', 'CREATE TABLE half (n int); SELECT nonsense;')
    await expect(migrate(url, migrations)).rejects.toThrow(/nonsense/)
    expect(await ask("SELECT to_regclass('half') AS half")).toEqual([{ half: null }])
    await expect(migrate(url, migrations)).rejects.toThrow(/1_bad failed earlier.*migrate resolve/)
  })

  it('that were edited after they were applied stop the start', async () => {
    write('1_first', 'CREATE TABLE t (n int);')
    await migrate(url, migrations)
    write('1_first', 'CREATE TABLE t (n bigint);')
    await expect(migrate(url, migrations)).rejects.toThrow(/1_first was edited/)
  })
})
