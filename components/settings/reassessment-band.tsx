'use client'
import { IconButton } from '@/components/ui/button'
import { asSentences } from '@/components/ui/fetch-json'
import { ErrorState, Progress } from '@/components/ui/states'
import { useJob } from './use-policy'
import css from './policy.module.css'

/** How far the splices have been assessed again under a new policy. It goes on without this page. */
export function ReassessmentBand({ jobId, onClose }: { jobId: number; onClose(): void }) {
  const job = useJob(jobId)
  if (job.isError && !job.data) return <ErrorState small {...asSentences(job.error)} />
  const { state, progress, failure } = job.data ?? { state: 'queued' as const, progress: null, failure: null }
  const count =
    progress === null
      ? undefined
      : `${progress.done.toLocaleString('en-US')}${progress.total === null ? '' : ` of ${progress.total.toLocaleString('en-US')}`} splices`
  return (
    <div className={css.band} role="status">
      {state === 'failed' && <ErrorState small title="The reassessment stopped." remedy={failure ?? 'Save the policy again.'} />}
      {state === 'done' && <p>Every splice has been assessed again under the policy in force.{count ? ` ${count}.` : ''}</p>}
      {(state === 'queued' || state === 'running') && (
        <Progress
          label="Assessing splices again"
          value={progress?.total ? progress.done / progress.total : null}
          detail={count ?? 'this goes on when you close the page'}
        />
      )}
      <IconButton icon="close" label="Hide" size="small" onClick={onClose} />
    </div>
  )
}
