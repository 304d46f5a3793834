import { spawnSync } from 'node:child_process'
import { createReadStream, createWriteStream } from 'node:fs'
import path from 'node:path'
import { pipeline } from 'node:stream/promises'
import pg from 'pg'
import { from as copyFrom, to as copyTo } from 'pg-copy-streams'
import { startEmbeddedPostgres } from '@/lib/launch/embedded-postgres'
import { migrate } from '@/lib/launch/migrate'
import { benchFiles } from './import/files'

/**
 * A readings CSV of 200,000 rows end to end, parsed, placed, assessed and rolled up, against COPY of the same mapped rows into the same
 * indexed table on the same server. Goal: under 3 times as long, the process under 400 MB.
 */
const DIR = path.join('.bench', 'import')
const say = (text: string) => process.stdout.write(`${text}\n`)

interface Took { ms: number; maxRssMb: number; phases: Record<string, number>; rows: number; read: number; rejected: number; placed: number; review: number; newSplices: number; urgent: number }

const files = benchFiles(DIR)
const server = await startEmbeddedPostgres({ dataDir: path.join(DIR, 'pg'), database: 'bench' })
try {
  const url = await freshDatabase('bench_import')
  for (const kind of ['lines', 'structures', 'splices'] as const) importIn(url, kind, files[kind])
  const took = importIn(url, 'readings', files.readings)
  const mapped = path.join(DIR, 'mapped.copy')
  await withClient(url, (client) => pipeline(client.query(copyTo('COPY reading TO STDOUT')), createWriteStream(mapped)))
  const copies = [await timeCopy(mapped), await timeCopy(mapped)]
  const copyMs = Math.min(...copies)
  const ratio = took.ms / copyMs
  say(`${took.rows} rows: read ${took.read}, rejected ${took.rejected}, placed ${took.placed}, review ${took.review}, new splices ${took.newSplices}, urgent ${took.urgent}`)
  say(`end to end ${(took.ms / 1000).toFixed(2)} s (${Math.round((took.rows / took.ms) * 1000)} rows/s), began ${JSON.stringify(took.phases)}`)
  say(`COPY of the mapped rows ${copies.map((ms) => (ms / 1000).toFixed(2)).join(' and ')} s`)
  say(`ratio ${ratio.toFixed(2)} (goal under 3), process at most ${Math.round(took.maxRssMb)} MB (goal under 400)`)
  if (ratio >= 3 || took.maxRssMb >= 400) process.exitCode = 1
} finally {
  await server.stop()
}

async function freshDatabase(name: string): Promise<string> {
  await withClient(server.url, async (client) => {
    await client.query(`DROP DATABASE IF EXISTS ${name} WITH (FORCE)`)
    await client.query(`CREATE DATABASE ${name}`)
  })
  const url = new URL(server.url)
  url.pathname = `/${name}`
  await migrate(url.href)
  return url.href
}

function importIn(url: string, kind: string, file: string): Took {
  const child = spawnSync(process.execPath, ['--import', 'tsx', path.join('test', 'bench', 'import', 'child.ts'), kind, file], {
    env: { ...process.env, DATABASE_URL: url }, encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'],
  })
  if (child.status !== 0) throw new Error(`The import of ${file} ended with ${child.status ?? child.signal}.`)
  return JSON.parse(child.stdout) as Took
}

/** COPY into an empty store of the same shape, indexes, constraints and foreign keys included. */
async function timeCopy(file: string): Promise<number> {
  const url = await freshDatabase('bench_copy')
  return withClient(url, async (client) => {
    await client.query(`INSERT INTO import (id, kind, file_name, sha256, size_bytes, state, actor)
      SELECT id, 'readings', 'x', repeat('0', 64), 0, 'running', 'bench' FROM generate_series(1, 10) id`)
    await client.query(`INSERT INTO survey (id, name) SELECT id, 'Visit ' || id FROM generate_series(1, 100) id`)
    const startedMs = performance.now()
    await client.query('BEGIN')
    await pipeline(createReadStream(file, { highWaterMark: 1 << 18 }), client.query(copyFrom('COPY reading FROM STDIN')))
    await client.query('COMMIT')
    return performance.now() - startedMs
  })
}

async function withClient<T>(url: string, work: (client: pg.Client) => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    return await work(client)
  } finally {
    await client.end()
  }
}
