import { spawnSync } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { importFromStream } from '@/lib/cases/import-from-stream'
import { undoImport } from '@/lib/cases/undo-import'
import type { ImportKind } from '@/lib/intake'
import { startEmbeddedPostgres } from '@/lib/launch/embedded-postgres'
import { migrate } from '@/lib/launch/migrate'
import { allScope } from '@/lib/store/all-scope'
import { closeDatabase } from '@/lib/store/database'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { benchFiles } from './import/files'

/** An import killed with kill -9 at ten points spread over its time: each leaves all or nothing, and the same file can be imported after it. */
const DIR = path.join('.bench', 'kill')
const ROWS = 40_000
const POINTS = 10
const say = (text: string) => process.stdout.write(`${text}\n`)

const files = benchFiles(path.join('.bench', 'import'))
fs.mkdirSync(DIR, { recursive: true })
const campaign = path.join(DIR, 'campaign.csv')
fs.writeFileSync(campaign, fs.readFileSync(files.readings, 'utf8').split('\r\n').slice(0, ROWS + 1).join('\r\n'))
const server = await startEmbeddedPostgres({ dataDir: path.join(DIR, 'pg'), database: `kill_${Date.now()}` })
process.env.DATABASE_URL = server.url
try {
  await migrate(server.url)
  for (const kind of ['lines', 'structures', 'splices'] as const) await importFile(kind, files[kind])
  const startedMs = performance.now()
  if (die('never').signal !== null) throw new Error('The import that nobody killed did not end by itself.')
  const wholeMs = performance.now() - startedMs
  await takeBack()
  let faults = 0
  for (let i = 0; i < POINTS; i++) {
    const atMs = Math.round(((i + 0.7) / POINTS) * wholeMs)
    const { signal } = die(`ms:${atMs}`)
    const readings = await held()
    const isWhole = readings === ROWS || readings === 0
    if (readings === 0) await importFile('readings', campaign)
    const after = await held()
    if (!isWhole || after !== ROWS) faults++
    say(`killed after ${atMs} ms (${signal ?? 'had ended'}): ${readings} of ${ROWS} rows, after importing again ${after}`)
    await takeBack()
  }
  say(faults === 0 ? 'All or nothing every time.' : `${faults} of ${POINTS} left something half done.`)
  if (faults > 0) process.exitCode = 1
} finally {
  await closeDatabase()
  await server.stop()
}

function die(point: string) {
  return spawnSync(process.execPath, ['--import', 'tsx', path.join('test', 'fixtures', 'store', 'import-and-die.ts'), campaign, point], { stdio: ['ignore', 'ignore', 'inherit'] })
}

async function importFile(kind: ImportKind, file: string): Promise<void> {
  const result = await importFromStream(allScope(), { fileName: path.basename(file), open: () => fs.createReadStream(file) }, { kind, survey: kind === 'readings' ? 'Campaign' : null, actor: 'bench' })
  if (!result.ok) throw new Error(result.error.message)
}

/** Rows that count, once the server has let go of what the killed process held. */
async function held(): Promise<number> {
  for (;;) {
    const row = await database().row<{ open: number; readings: number }>(sql`
      SELECT (SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid() AND state <> 'idle') AS open,
        (SELECT count(*) FROM reading WHERE NOT withdrawn) AS readings`)
    if (row?.open === 0) return row.readings
    await sleep(50)
  }
}

async function takeBack(): Promise<void> {
  for (const { id } of await database().rows<{ id: number }>(sql`SELECT id FROM import WHERE kind = 'readings' AND state = 'done'`)) {
    const undone = await undoImport(allScope(), id, 'bench')
    if (!undone.ok) throw new Error(undone.error.message)
  }
}
