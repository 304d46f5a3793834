import { reassessNetwork } from '@/lib/cases/reassess-network'
import { runImport } from '@/lib/cases/run-import'
import { runReviewAct, runReviewActUndo } from '@/lib/cases/review/run-review-act'
import { failImport } from '@/lib/store/imports'
import { writeAttemptProgress } from '@/lib/store/jobs'
import { failReviewAct } from '@/lib/store/review-acts'
import type { Scope } from '@/lib/store/scope'
import type { ClaimedJob } from './claim'

/** Does a job. Throws where it came to nothing and may be tried again. */
export async function work(scope: Scope, job: ClaimedJob): Promise<void> {
  switch (job.payload.kind) {
    case 'import':
      await runImport(scope, job.payload.importId) // a file that cannot be read ends its import by name, and the job with it
      return
    case 'reassess':
      await reassessNetwork(scope, (done, total) => writeAttemptProgress(scope, job.attemptId, { done, total }))
      return
    case 'review-act':
      await runReviewAct(scope, job.payload.actId, (done, total) => writeAttemptProgress(scope, job.attemptId, { done, total }))
      return
    case 'review-act-undo':
      await runReviewActUndo(scope, job.payload.actId, job.payload.actor, (done, total) => writeAttemptProgress(scope, job.attemptId, { done, total }))
  }
}

/** What stays to be said where a job has failed for good. */
export async function giveUp(scope: Scope, job: ClaimedJob, failure: string): Promise<void> {
  if (job.payload.kind === 'import') {
    await failImport(scope, job.payload.importId, `It was tried ${job.attempt} times and nothing of it was stored. The last time: ${failure}`)
  }
  if (job.payload.kind === 'review-act') await failReviewAct(scope, job.payload.actId, failure)
}
