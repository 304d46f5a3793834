import { afterEach, beforeAll, describe, expect, it } from 'vitest'
import { changePolicy } from '@/lib/cases/change-policy'
import { receiveFile, type FileToReceive } from '@/lib/cases/receive-file'
import { ENGINE_VERSION } from '@/lib/condition'
import { claimJob, endJob, failJob } from '@/lib/jobs/claim'
import { startWorker, type Worker } from '@/lib/jobs/worker'
import { dedicatedClient, pool } from '@/lib/store/database'
import { getImport } from '@/lib/store/imports'
import { getJob } from '@/lib/store/jobs'
import { sql } from '@/lib/store/sql/sql'
import { countSplices } from '@/lib/store/splices'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { buildNetwork, csv, reading, scope } from './utility'

useDatabase()
beforeAll(buildNetwork)

const workers: Worker[] = []
afterEach(async () => {
  await Promise.all(workers.splice(0).map((worker) => worker.stop()))
})

async function* bytes(text: string, piece = text.length): AsyncGenerator<Uint8Array> {
  const all = Buffer.from(text)
  for (let at = 0; at < all.length; at += piece) yield all.subarray(at, at + piece)
}

const file = (more: Partial<FileToReceive> = {}): FileToReceive => ({ fileName: 'campaign.csv', kind: 'readings', survey: 'Spring', actor: 'tester', limitBytes: 100_000, ...more })

const received = async (text: string, more: Partial<FileToReceive> = {}) => {
  const result = await receiveFile(scope, file(more), bytes(text, 1000))
  if (!result.ok) throw new Error(result.error.message)
  return result.value
}

async function until<T>(ask: () => Promise<T>, isIt: (value: T) => boolean): Promise<T> {
  for (const deadline = Date.now() + 20_000; Date.now() < deadline;) {
    const value = await ask()
    if (isIt(value)) return value
    await new Promise((resolve) => setTimeout(resolve, 20))
  }
  throw new Error('It did not come to that within 20 s.')
}

const rows = async <T extends object>(text: string): Promise<T[]> => database().rows<T>(sql([text]))

describe('receiving a file', () => {
  const text = csv([reading('a', 450), reading('b', 1050)])

  it('stores it whole in pieces and queues its import', async () => {
    const { importId, again } = await received(text)
    expect(again).toBe(false)
    expect(await getImport(scope, importId)).toMatchObject({ state: 'queued', size_bytes: text.length, report: null })
    const [chunks] = await rows<{ text: string }>(`SELECT convert_from(string_agg(bytes, ''::bytea ORDER BY seq), 'UTF8') AS text FROM import_chunk`)
    expect(chunks?.text).toBe(text)
  })

  it('answers the same file with the import that waits already', async () => {
    expect(await received(text)).toMatchObject({ again: true })
    expect((await received(text, { survey: 'Autumn' })).again).toBe(false)
  })

  it('refuses what is too large by a named limit, declared or not, and keeps nothing of it', async () => {
    const before = await rows('SELECT id FROM import')
    const big = 'x'.repeat(5000)
    expect(await receiveFile(scope, file({ limitBytes: 4000, declaredBytes: 5000 }), bytes(big))).toMatchObject({ ok: false, error: { code: 'too-large' } })
    expect(await receiveFile(scope, file({ limitBytes: 4000 }), bytes(big, 500))).toMatchObject({ ok: false, error: { code: 'too-large' } })
    expect(await rows('SELECT id FROM import')).toEqual(before)
  })

  it('refuses what did not arrive whole, and what is empty', async () => {
    expect(await receiveFile(scope, file({ declaredBytes: text.length + 1 }), bytes(text))).toMatchObject({ ok: false, error: { code: 'not-whole' } })
    expect(await receiveFile(scope, file(), bytes(''))).toMatchObject({ ok: false, error: { code: 'empty' } })
  })

  it('arrives whole at 11 MB', async () => {
    const note = 'n'.repeat(500)
    const large = csv(Array.from({ length: 20_000 }, (_, i) => reading(`L${i}`, 300 + (i % 2000), { note })))
    expect(large.length).toBeGreaterThan(11_000_000)
    const { importId } = await received(large, { limitBytes: 100_000_000, survey: 'Large', dryRun: true })
    const [sum] = await rows<{ bytes: number }>(`SELECT sum(length(bytes)) AS bytes FROM import_chunk WHERE import_id = ${importId}`)
    expect(sum?.bytes).toBe(Buffer.byteLength(large))
    await database().run(sql`UPDATE job SET state = 'done' WHERE (payload->>'importId')::int = ${importId}`)
  })
})

describe('workers', () => {
  it('do what waits, are told of what comes, and drop the stored file', async () => {
    workers.push(await startWorker(scope, { pollMs: 60_000 }))
    await until(() => rows(`SELECT id FROM job WHERE state = 'queued'`), (waiting) => waiting.length === 0)
    const { importId } = await received(csv([reading('c', 1650)]), { survey: 'Later' })
    const done = await until(() => getImport(scope, importId), (status) => status?.state === 'done')
    expect(done?.report).toMatchObject({ rows: 1, placed: 1 })
    expect(await rows(`SELECT import_id FROM import_chunk WHERE import_id = ${importId}`)).toEqual([])
  })

  it('end an import of a file that cannot be read as failed, by name', async () => {
    workers.push(await startWorker(scope))
    const { importId } = await received('\u0000\u0001\u0002 no text at all', { survey: 'None' })
    const failed = await until(() => getImport(scope, importId), (status) => status?.state === 'failed')
    expect(failed?.failure).toMatch(/\. .+\.$/)
  })

  it('reassess after a change of policy and show how far they are', async () => {
    workers.push(await startWorker(scope))
    const changed = await changePolicy(scope, { values: { edges: { watch: 0.2, degraded: 0.3, urgent: 0.4, critical: 5 } }, procedureNo: null, note: 'A trial', setBy: 'R. Castellan', actor: 'engineer' })
    const jobId = changed.ok ? changed.value.job_id : 0
    await until(() => getJob(scope, jobId), (job) => job?.state === 'done')
    const counts = await countSplices(scope)
    expect(counts.urgent).toBeGreaterThan(0)
    expect(counts.sound).toBe(0)
  })

  it('never take one job twice', async () => {
    const before = (await rows<{ id: number }>('SELECT id FROM job_attempt')).length
    const jobs = 12
    for (let i = 0; i < jobs; i++) await database().run(sql`INSERT INTO job (kind, payload) VALUES ('reassess', '{"policyVersion": 1}')`)
    for (let i = 0; i < 4; i++) workers.push(await startWorker(scope, { pollMs: 50 }))
    await until(() => rows(`SELECT id FROM job WHERE state = 'queued'`), (waiting) => waiting.length === 0)
    expect((await rows(`SELECT id FROM job WHERE state = 'done'`)).length).toBeGreaterThanOrEqual(jobs)
    expect((await rows<{ id: number }>('SELECT id FROM job_attempt')).length - before).toBe(jobs)
  })
})

describe('a claim', () => {
  it('is one worker\'s alone and is free again the moment its connection dies', async () => {
    const { id = 0 } = await database().row<{ id: number }>(sql`INSERT INTO job (kind, payload) VALUES ('reassess', '{"policyVersion": 1}') RETURNING id`) ?? {}
    const [one, other] = [await dedicatedClient(), await dedicatedClient()]
    one.on('error', () => undefined)
    const first = await claimJob(one, pool())
    expect(first).toMatchObject({ id, attempt: 1 })
    expect(await claimJob(other, pool())).toBeNull()
    expect(await getJob(scope, id)).toMatchObject({ state: 'running' })
    const [{ pid } = { pid: 0 }] = (await one.query<{ pid: number }>('SELECT pg_backend_pid() AS pid')).rows
    await database().run(sql`SELECT pg_terminate_backend(${pid})`)
    const second = await until(() => claimJob(other, pool()), (job) => job !== null)
    expect(second).toMatchObject({ id, attempt: 2 })
    if (second) await endJob(other, second)
    await other.end()
    expect(await getJob(scope, id)).toMatchObject({ state: 'done' })
  })

  it('ends after three tries, with the reason', async () => {
    const { id = 0 } = await database().row<{ id: number }>(sql`INSERT INTO job (kind, payload) VALUES ('reassess', '{"policyVersion": 1}') RETURNING id`) ?? {}
    const lock = await dedicatedClient()
    for (const [attempt, forGood] of [[1, false], [2, false], [3, true]] as const) {
      const job = await claimJob(lock, pool())
      expect(job).toMatchObject({ id, attempt })
      if (job) expect(await failJob(lock, pool(), job, `try ${attempt} came to nothing`)).toBe(forGood)
    }
    expect(await claimJob(lock, pool())).toBeNull()
    await lock.end()
    expect(await getJob(scope, id)).toMatchObject({ state: 'failed', failure: 'try 3 came to nothing' })
  })

  // Versions go by their numbers: '10.0' comes after '9.1' although it is written before it.
  it('leaves to a newer engine what that one queued, and does what an older one left', async () => {
    const changed = await changePolicy(scope, { values: { edges: { watch: 0.3, degraded: 0.4, urgent: 0.5, critical: 6 } }, procedureNo: null, note: 'A trial', setBy: 'R. Castellan', actor: 'engineer' })
    const id = changed.ok ? changed.value.job_id : 0
    expect(await rows(`SELECT engine_version FROM job WHERE id = ${id}`)).toEqual([{ engine_version: ENGINE_VERSION }])
    const lock = await dedicatedClient()
    const taken = async (queuedBy: string, by: string) => {
      await database().run(sql`UPDATE job SET engine_version = ${queuedBy} WHERE id = ${id}`)
      const job = await claimJob(lock, pool(), by)
      if (job) await failJob(lock, pool(), { ...job, attempt: 1 }, 'set down again')
      return job?.id ?? null
    }
    expect(await taken('9.1', '9.0')).toBeNull()
    expect(await taken('10.0', '9.1')).toBeNull()
    expect(await taken('9.1', '9.1')).toBe(id)
    expect(await taken('9.1', '10.0')).toBe(id)
    await database().run(sql`UPDATE job SET engine_version = '999.0' WHERE id = ${id}`)
    const worker = await startWorker(scope, { pollMs: 20 })
    await new Promise((resolve) => setTimeout(resolve, 200))
    await worker.stop()
    expect(await rows(`SELECT state FROM job WHERE id = ${id}`)).toEqual([{ state: 'queued' }])
    await database().run(sql`UPDATE job SET engine_version = ${ENGINE_VERSION} WHERE id = ${id}`)
    workers.push(await startWorker(scope, { pollMs: 20 }))
    expect(await until(() => getJob(scope, id), (job) => job?.state !== 'running' && job?.state !== 'queued')).toMatchObject({ state: 'done' })
    await lock.end()
  })
})
