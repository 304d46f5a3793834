import { afterEach, beforeAll, describe, expect, it } from 'vitest'
import { endImport } from '@/lib/cases/end-import'
import { importFromStream } from '@/lib/cases/import-from-stream'
import { receiveFile } from '@/lib/cases/receive-file'
import { undoImport } from '@/lib/cases/undo-import'
import { startWorker, type Worker } from '@/lib/jobs/worker'
import { getImport, listImports, type ImportPhase } from '@/lib/store/imports'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { buildNetwork, csv, reading, scope } from './utility'

useDatabase()
beforeAll(buildNetwork)

const workers: Worker[] = []
afterEach(async () => {
  await Promise.all(workers.splice(0).map((worker) => worker.stop()))
})

const ROWS = 2_000
const text = (survey: string) => csv(Array.from({ length: ROWS }, (_, i) => reading(`${survey}${i}`, 20 + (i % 98) * 30, {
  phase: 'ABC'[i % 3] ?? 'A', crew: `Crew ${survey} ${i % 5}`, taken_at: new Date(Date.UTC(2026, 4, 1 + (i % 28), 9, 0, i % 3600)).toISOString(), side_a_uohm: 10 + (i % 70),
})))

async function* bytes(whole: string): AsyncGenerator<Uint8Array> {
  yield Buffer.from(whole)
}

const received = async (whole: string, survey: string) => {
  const result = await receiveFile(scope, { fileName: `${survey}.csv`, kind: 'readings', survey, actor: 'tester', limitBytes: 100_000_000 }, bytes(whole))
  if (!result.ok) throw new Error(result.error.message)
  return result.value
}

async function until<T>(ask: () => Promise<T>, isIt: (value: T) => boolean): Promise<T> {
  for (const deadline = Date.now() + 60_000; Date.now() < deadline;) {
    const value = await ask()
    if (isIt(value)) return value
    await new Promise((resolve) => setTimeout(resolve, 5))
  }
  throw new Error('It did not come to that within a minute.')
}

/** Rows that count, and what is kept of a file, table by table. */
const held = async () => database().row<Record<string, number>>(sql`
  SELECT (SELECT count(*)::int FROM reading) AS readings, (SELECT count(*)::int FROM placement) AS placements, (SELECT count(*)::int FROM splice) AS splices,
    (SELECT count(*)::int FROM assessment) AS assessments, (SELECT count(*)::int FROM span_coverage) AS coverage, (SELECT count(*)::int FROM urgent_notice) AS notices,
    (SELECT count(*)::int FROM import_issue) AS issues, (SELECT count(*)::int FROM import_chunk) AS chunks`)

const waitingJobs = () => database().rows(sql`SELECT id FROM job WHERE state = 'queued'`)

describe('an import that is cancelled', () => {
  it.each<ImportPhase>(['reading', 'placing', 'assessing', 'storing'])('while it is %s leaves nothing, and the same file is imported again', async (phase) => {
    const before = await held()
    const survey = `cancel-${phase}`
    const source = { fileName: `${survey}.csv`, open: () => bytes(text(survey)) }
    const cancelled: Promise<unknown>[] = []
    const onProgress = (now: ImportPhase) => {
      if (now !== phase || cancelled.length > 0) return
      cancelled.push(listImports(scope).then(({ items: [newest] }) => endImport(scope, newest?.id ?? 0, 'operator')))
    }
    const outcome = await importFromStream(scope, source, { kind: 'readings', survey, actor: 'tester', onProgress })
    expect(await Promise.all(cancelled)).toEqual([{ ok: true, value: null }])
    expect(outcome).toMatchObject({ ok: false, error: { code: 'wrong-state', message: expect.stringContaining('was cancelled. Nothing of it was stored.') } })
    const { items: [status] } = await listImports(scope)
    expect(status).toMatchObject({ state: 'cancelled', phase: null, report: null, undone_at: null })
    expect(status?.finished_at).not.toBeNull()
    expect(await held()).toEqual(before)

    const again = await importFromStream(scope, source, { kind: 'readings', survey, actor: 'tester' })
    expect(again).toMatchObject({ ok: true, value: { again: false, report: { rows: ROWS, read: ROWS } } })
    if (again.ok) expect((await undoImport(scope, again.value.report.import_id, 'tester')).ok).toBe(true)
  })

  it('by a worker stops within its work, ends its job, and lets the next in', async () => {
    const before = await held()
    const { importId } = await received(text('worker'), 'worker')
    workers.push(await startWorker(scope, { pollMs: 20 }))
    await until(() => getImport(scope, importId), (status) => status?.state === 'running')
    expect(await endImport(scope, importId, 'operator')).toEqual({ ok: true, value: null })
    await until(waitingJobs, (jobs) => jobs.length === 0)
    expect(await getImport(scope, importId)).toMatchObject({ state: 'cancelled', failure: null, report: null })
    expect(await held()).toEqual(before)
    const next = await received(text('worker'), 'worker')
    expect(next.again).toBe(false)
    expect(next.importId).not.toBe(importId)
    expect((await until(() => getImport(scope, next.importId), (status) => status?.state === 'done'))?.report).toMatchObject({ rows: ROWS, read: ROWS })
  })

  it('before its turn is never begun, and its file goes', async () => {
    const { importId } = await received(text('early'), 'early')
    const before = await held()
    expect(await endImport(scope, importId, 'operator')).toEqual({ ok: true, value: null })
    workers.push(await startWorker(scope, { pollMs: 20 }))
    await until(waitingJobs, (jobs) => jobs.length === 0)
    expect(await getImport(scope, importId)).toMatchObject({ state: 'cancelled', rows_done: 0 })
    expect((await held())?.['readings']).toBe(before?.['readings'])
    expect((await held())?.['chunks']).toBe(0)
    expect(await database().row(sql`SELECT actor FROM audit_entry WHERE action = 'import.cancelled' AND subject_id = ${importId}`)).toEqual({ actor: 'operator' })
  })

  it('cannot be cancelled or undone a second time', async () => {
    const { items: [status] } = await listImports(scope)
    expect(status?.state).toBe('cancelled')
    expect(await endImport(scope, status?.id ?? 0, 'operator')).toMatchObject({ ok: false, error: { code: 'wrong-state' } })
  })
})

describe('the progress of an import', () => {
  it('counts splices while they are assessed', async () => {
    const counted: number[] = []
    const source = { fileName: 'counted.csv', open: () => bytes(text('counted')) }
    const outcome = await importFromStream(scope, source, {
      kind: 'readings', survey: 'counted', actor: 'tester', onProgress: (phase, done) => { if (phase === 'assessing') counted.push(done) },
    })
    const { items: [status] } = await listImports(scope)
    const [{ splices } = { splices: 0 }] = await database().rows<{ splices: number }>(sql`
      SELECT count(DISTINCT p.splice_id)::int AS splices FROM placement p JOIN reading r ON r.id = p.reading_id WHERE r.import_id = ${status?.id ?? 0} AND p.current`)
    expect(outcome.ok).toBe(true)
    expect(splices).toBeGreaterThan(0)
    expect(splices).toBeLessThan(ROWS / 2)
    expect(counted[0]).toBe(0)
    expect(Math.max(...counted)).toBeLessThanOrEqual(splices)
    expect(status).toMatchObject({ splices_total: splices, rows_total: ROWS })
  })
})
