import { spawn, type ChildProcess } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { receiveFile } from '@/lib/cases/receive-file'
import { undoImport } from '@/lib/cases/undo-import'
import { startWorker } from '@/lib/jobs/worker'
import { getImport, listImports } from '@/lib/store/imports'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { buildNetwork, csv, importText, reading, scope } from './utility'

useDatabase()

const ROWS = 4_000
const text = csv(Array.from({ length: ROWS }, (_, i) => reading(`k${i}`, 20 + (i % 98) * 30, {
  phase: 'ABC'[i % 3] ?? 'A', crew: `Crew ${i % 5}`, taken_at: new Date(Date.UTC(2026, 4, 1 + (i % 28), 9, 0, i % 3600)).toISOString(), side_a_uohm: 10 + (i % 7),
})))
const dir = fs.mkdtempSync(path.join(os.tmpdir(), 'spanledger-kill-'))
const file = path.join(dir, 'campaign.csv')

beforeAll(async () => {
  fs.writeFileSync(file, text)
  await buildNetwork()
})
afterAll(() => fs.rmSync(dir, { recursive: true, force: true }))

const children: ChildProcess[] = []
afterEach(() => children.splice(0).forEach((child) => child.kill('SIGKILL')))

function run(script: string, ...args: string[]): ChildProcess {
  const child = spawn(process.execPath, ['--import', 'tsx', path.join('test', 'fixtures', 'store', script), ...args], { stdio: ['ignore', 'pipe', 'inherit'] })
  children.push(child)
  return child
}

async function until<T>(ask: () => Promise<T>, isIt: (value: T) => boolean): Promise<T> {
  for (const deadline = Date.now() + 120_000; Date.now() < deadline;) {
    const value = await ask()
    if (isIt(value)) return value
    await new Promise((resolve) => setTimeout(resolve, 10))
  }
  throw new Error('It did not come to that within two minutes.')
}

/** Rows that count, table by table. */
const held = async () => database().row<Record<string, number>>(sql`
  SELECT (SELECT count(*) FROM reading WHERE NOT withdrawn) AS readings, (SELECT count(*) FROM placement WHERE current) AS placements,
    (SELECT count(*) FROM splice) AS splices, (SELECT count(*) FROM splice_state) AS states, (SELECT count(*) FROM span_coverage) AS coverage,
    (SELECT count(*) FROM urgent_notice) AS notices`)

const NOTHING = { readings: 0, placements: 0, splices: 0, states: 0, coverage: 0, notices: 0 }

/** The last killed process may still be held by its server process for a moment. */
const settled = () => until(() => database().row<{ n: number }>(sql`
  SELECT count(*) AS n FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid() AND state = 'idle in transaction'`), (r) => r?.n === 0)

describe('an import whose process is killed with kill -9', () => {
  it.each(['reading:0.6', 'placing', 'assessing', 'storing'])('at %s leaves nothing, and the same file can be imported', async (point) => {
    const child = run('import-and-die.ts', file, point)
    const [, signal] = await once(child, 'exit')
    expect(signal).toBe('SIGKILL')
    await settled()
    expect(await held()).toEqual(NOTHING)
    const again = await importText('readings', text, { survey: 'Campaign' }, 'campaign.csv')
    expect(again).toMatchObject({ again: false, report: { rows: ROWS, read: ROWS, already_held: 0 } })
    expect(await held()).toMatchObject({ readings: ROWS, placements: ROWS })
    const broken = (await listImports(scope)).items.find((i) => i.state === 'failed')
    expect(broken?.failure).toContain('nothing of it was stored')
    await undoImport(scope, again.report.import_id, 'tester')
    await database().run(sql`ANALYZE reading`) // as it comes by itself sooner or later: all that was counted is withdrawn
    await database().run(sql`DELETE FROM import WHERE state = 'failed'`)
    expect(await held()).toEqual(NOTHING)
  })
})

describe('a worker that is killed with kill -9', () => {
  it('leaves its import to the next worker', async () => {
    const first = run('work.ts')
    await once(first.stdout ?? first, 'data')
    async function* bytes(): AsyncGenerator<Uint8Array> {
      yield Buffer.from(text)
    }
    const received = await receiveFile(scope, { fileName: 'campaign.csv', kind: 'readings', survey: 'Campaign', actor: 'tester', limitBytes: 1e8 }, bytes())
    const id = received.ok ? received.value.importId : 0
    await until(() => getImport(scope, id), (status) => status?.phase === 'placing' || status?.phase === 'assessing')
    first.kill('SIGKILL')
    await once(first, 'exit')
    expect(await getImport(scope, id)).toMatchObject({ state: 'running', report: null })
    expect(await held()).toEqual(NOTHING)
    const second = await startWorker(scope, { pollMs: 100 })
    const done = await until(() => getImport(scope, id), (status) => status?.state === 'done' || status?.state === 'failed')
    await second.stop()
    expect(done).toMatchObject({ state: 'done', report: { rows: ROWS, read: ROWS } })
    expect(await held()).toMatchObject({ readings: ROWS, placements: ROWS })
  })
})
