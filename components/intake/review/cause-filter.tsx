'use client'
import { Button } from '@/components/ui/button'
import { Icon } from '@/components/ui/icons'
import { NativeSelect } from '@/components/ui/native-select'
import type { ReviewCause } from '@/lib/contract/contract'
import type { ReviewPage } from '@/lib/contract/intake'
import { reviewCauseText } from '@/lib/geo/review-cause'
import { count } from '../words'
import css from './review.module.css'

const ALL = 'all'

/** Which cause of waiting is looked at, how many wait for each, and how many urgent and critical the choice hides. */
export function CauseFilter({
  causes,
  cause,
  onCause,
}: {
  causes: ReviewPage['causes']
  cause: ReviewCause | null
  onCause(cause: ReviewCause | null): void
}) {
  const total = causes.reduce((sum, c) => sum + c.count, 0)
  const hidden = cause === null ? 0 : causes.reduce((sum, c) => sum + (c.cause === cause ? 0 : c.urgent), 0)
  // The last of a cause may just have been decided while it is still chosen.
  const listed = cause === null || causes.some((c) => c.cause === cause) ? causes : [...causes, { cause, count: 0, urgent: 0 }]
  return (
    <div className={css.causes}>
      <NativeSelect
        label="Why they wait"
        value={cause ?? ALL}
        onChange={(e) => onCause(listed.find((c) => c.cause === e.target.value)?.cause ?? null)}
      >
        <option value={ALL}>All causes ({count(total)})</option>
        {listed.map((c) => (
          <option key={c.cause} value={c.cause}>
            {reviewCauseText(c.cause)} ({count(c.count)})
          </option>
        ))}
      </NativeSelect>
      {hidden > 0 && (
        <Button size="small" variant="quiet" className={css.hidden} onClick={() => onCause(null)}>
          <Icon name="warning" />
          {count(hidden)} urgent or critical hidden
        </Button>
      )}
    </div>
  )
}
