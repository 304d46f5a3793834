import type pg from 'pg'
import { JOB_ATTEMPTS, JOB_ENGINE, type JobPayload } from '@/lib/store/jobs'

export interface ClaimedJob {
  id: number
  payload: JobPayload
  /** 1 is the first try. */
  attempt: number
  attemptId: number
}

interface JobRow { id: number; kind: JobPayload['kind']; payload: Record<string, unknown> }

/**
 * Takes the oldest waiting job by a lock on its row, in a transaction that stays open on `lock` for as long as the work lasts: a worker
 * that is killed frees it at once. What must be seen meanwhile goes through `beside`. The lock leaves room for foreign keys, so
 * that attempts can be counted beside it. Work that a newer engine queued is left to a server that has it; what an older one queued is
 * done, because nobody else may be left to do it. Null where nothing waits.
 * @param engineVersion of this server: numbers with points
 */
export async function claimJob(lock: pg.Client, beside: pg.Pool, engineVersion = JOB_ENGINE): Promise<ClaimedJob | null> {
  await lock.query('BEGIN')
  const { rows } = await lock.query<JobRow>(`
    SELECT id, kind, payload FROM job
    WHERE state = 'queued' AND (engine_version IS NULL OR string_to_array(engine_version, '.')::int[] <= string_to_array($1, '.')::int[])
    ORDER BY id LIMIT 1 FOR NO KEY UPDATE SKIP LOCKED`, [engineVersion])
  const job = rows[0]
  if (!job) {
    await lock.query('COMMIT')
    return null
  }
  const { rows: tries } = await beside.query<{ id: number; attempt: number }>(`
    INSERT INTO job_attempt (job_id) VALUES ($1) RETURNING id, (SELECT count(*)::int FROM job_attempt WHERE job_id = $1) + 1 AS attempt`, [job.id])
  const { id: attemptId = 0, attempt = 1 } = tries[0] ?? {}
  return { id: job.id, payload: { kind: job.kind, ...job.payload } as JobPayload, attempt, attemptId }
}

/** The job is done; its lock goes with the commit. */
export async function endJob(lock: pg.Client, job: ClaimedJob): Promise<void> {
  await lock.query(`UPDATE job SET state = 'done', finished_at = now() WHERE id = $1`, [job.id])
  await lock.query('COMMIT')
}

/** This try came to nothing. The job waits for another, until the last; then it has failed for good. Returns whether it has. */
export async function failJob(lock: pg.Client, beside: pg.Pool, job: ClaimedJob, failure: string): Promise<boolean> {
  await beside.query('UPDATE job_attempt SET failure = $2 WHERE id = $1', [job.attemptId, failure])
  const forGood = job.attempt >= JOB_ATTEMPTS
  if (forGood) await lock.query(`UPDATE job SET state = 'failed', finished_at = now(), failure = $2 WHERE id = $1`, [job.id, failure])
  await lock.query('COMMIT')
  return forGood
}
