import type pg from 'pg'
import { dedicatedClient, pool } from '@/lib/store/database'
import { JOB_ATTEMPTS, JOB_CHANNEL } from '@/lib/store/jobs'
import type { Scope } from '@/lib/store/scope'
import { claimJob, endJob, failJob, type ClaimedJob } from './claim'
import { giveUp, work } from './work'

export interface WorkerOptions {
  /** How often to look without being told, milliseconds. */
  pollMs?: number
  /** Told of every job that came to nothing, and of a lost connection. */
  onFailure?: (failure: { jobId: number | null; message: string; forGood: boolean }) => void
}

export interface Worker {
  /** Resolves once the job under way, if any, has ended. */
  stop(): Promise<void>
}

/**
 * Takes part in the background work until stopped: told by the database, and looking by itself now and then. Any number of workers, in
 * any number of processes, share one queue; each job is taken by one.
 */
export async function startWorker(scope: Scope, options: WorkerOptions = {}): Promise<Worker> {
  const { pollMs = 5_000, onFailure = () => undefined } = options
  let stopping = false
  let wake = (): void => undefined
  const bell = { rung: false }
  const ring = (): void => {
    bell.rung = true
    wake()
  }
  const rest = (): Promise<void> => new Promise((resolve) => {
    if (bell.rung || stopping) return resolve()
    const timer = setTimeout(resolve, pollMs)
    wake = () => {
      clearTimeout(timer)
      resolve()
    }
  })
  const loop = async (): Promise<void> => {
    while (!stopping) {
      try {
        await serve(scope, ring, () => stopping, async () => {
          await rest()
          bell.rung = false
        }, onFailure)
      } catch (e) {
        onFailure({ jobId: null, message: messageOf(e), forGood: false })
        bell.rung = false
        await rest()
      }
    }
  }
  const running = loop()
  return {
    stop: async () => {
      stopping = true
      ring()
      await running
    },
  }
}

/** Works over one connection until told to stop or the connection is lost. */
async function serve(
  scope: Scope, ring: () => void, isStopping: () => boolean, rest: () => Promise<void>, onFailure: NonNullable<WorkerOptions['onFailure']>,
): Promise<void> {
  const lock = await dedicatedClient()
  let lost: Error | undefined
  lock.on('error', (e) => {
    lost = e
    ring()
  })
  lock.on('notification', ring)
  try {
    await lock.query(`LISTEN ${JOB_CHANNEL}`)
    while (!isStopping()) {
      if (lost) throw lost
      const job = await claimJob(lock, pool())
      if (job) await attempt(scope, lock, job, onFailure)
      else await rest()
    }
  } finally {
    await lock.end().catch(() => undefined)
  }
}

async function attempt(scope: Scope, lock: pg.Client, job: ClaimedJob, onFailure: NonNullable<WorkerOptions['onFailure']>): Promise<void> {
  // A worker that was killed while at it has counted its try too: a job that kills its worker ends after the last.
  if (job.attempt > JOB_ATTEMPTS) return settle(scope, lock, job, 'its worker ended before it was done', onFailure)
  try {
    await work(scope, job)
    await endJob(lock, job)
  } catch (e) {
    await settle(scope, lock, job, messageOf(e), onFailure)
  }
}

async function settle(
  scope: Scope, lock: pg.Client, job: ClaimedJob, message: string, onFailure: NonNullable<WorkerOptions['onFailure']>,
): Promise<void> {
  const forGood = await failJob(lock, pool(), job, message)
  if (forGood) await giveUp(scope, job, message)
  onFailure({ jobId: job.id, message, forGood })
}

const messageOf = (e: unknown): string => (e instanceof Error ? e.message : String(e))
