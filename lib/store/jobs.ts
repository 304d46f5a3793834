import { ENGINE_VERSION } from '@/lib/condition'
import type { JobStatus } from '@/lib/contract/settings'
import { onEverything, type Scope } from './scope'
import { sql } from './sql/sql'
import { database, type Db } from './transaction'

export type JobPayload = { kind: 'import'; importId: number } | { kind: 'reassess'; policyVersion: number } | { kind: 'review-act'; actId: number } | { kind: 'review-act-undo'; actId: number; actor: string }

/** Workers listen here; the notification leaves when the transaction commits. */
export const JOB_CHANNEL = 'spanledger_job'

/** What this server queues carries its engine, so that a server with an older one leaves it alone. */
export const JOB_ENGINE = ENGINE_VERSION

/** A job is tried this often before it has failed for good. */
export const JOB_ATTEMPTS = 3

/** Puts work in the queue, within the transaction of what asks for it. Undefined outside a scope of everything. */
export async function enqueueJob(scope: Scope, { kind, ...payload }: JobPayload, db: Db): Promise<number | undefined> {
  const row = await db.row<{ id: number }>(sql`
    INSERT INTO job (kind, payload, engine_version) SELECT ${kind}, ${JSON.stringify(payload)}::jsonb, ${JOB_ENGINE} WHERE ${onEverything(scope)} RETURNING id`)
  if (row) await db.run(sql`SELECT pg_notify(${JOB_CHANNEL}, ${String(row.id)})`)
  return row?.id
}

/** How a job stands. One that was tried and has not ended runs, or waits for a worker to take it up again. */
export async function getJob(scope: Scope, id: number, db: Db = database()): Promise<JobStatus | undefined> {
  return db.row<JobStatus>(sql`
    SELECT j.id, CASE WHEN j.state = 'queued' AND a.id IS NOT NULL THEN 'running' ELSE j.state END AS state, a.progress, j.failure
    FROM job j LEFT JOIN LATERAL (SELECT id, progress FROM job_attempt WHERE job_id = j.id ORDER BY id DESC LIMIT 1) a ON TRUE
    WHERE j.id = ${id} AND ${onEverything(scope)}`)
}

/** How far a try is; seen through the job. */
export async function writeAttemptProgress(scope: Scope, attemptId: number, progress: { done: number; total: number }, db: Db = database()): Promise<void> {
  await db.run(sql`UPDATE job_attempt SET progress = ${JSON.stringify(progress)}::jsonb WHERE id = ${attemptId} AND ${onEverything(scope)}`)
}
