import css from '@/components/ui/sheet.module.css'
import type { SpliceDetail } from '@/lib/contract/contract'
import { formatDate, formatDateTime } from '@/lib/units/time'
import type { StoredAssessment } from './assessment'

const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS

type Action = StoredAssessment['nextActions'][number]

/**
 * By when, in the reader's zone: hours count from the assessment that found it, days too, but a survey that comes round again
 * counts from the last reading. Null where policy sets no time.
 */
export function dueText(
  action: Action | undefined,
  of: Pick<SpliceDetail, 'assessed_at' | 'last_reading_at'>,
  timeZone: string,
): string | null {
  if (!action || !of.assessed_at) return null
  const fromMs = Date.parse(action.code === 'measure-again' && of.last_reading_at ? of.last_reading_at : of.assessed_at)
  if (action.withinHours !== undefined) return `By ${formatDateTime(fromMs + action.withinHours * HOUR_MS, timeZone)}.`
  return action.withinDays === undefined ? null : `By ${formatDate(fromMs + action.withinDays * DAY_MS, timeZone)}.`
}

export interface NextActionsProps {
  detail: SpliceDetail
  assessment: StoredAssessment | null
  sentences: string[]
  caution: string
  timeZone: string
}

/** What to do and by when; the caution stands here, where it is decided, and nowhere else. */
export function NextActions({ detail, assessment, sentences, caution, timeZone }: NextActionsProps) {
  const acute = detail.class === 'urgent' || detail.class === 'critical'
  // What holding a class adds stands before what the assessment itself asks for.
  const added = sentences.length - (assessment?.nextActions.length ?? sentences.length)
  return (
    <section className={css.part}>
      <h2>Next</h2>
      <ol className={css.sentences}>
        {sentences.map((sentence, i) => {
          const due = dueText(assessment?.nextActions[i - added], detail, timeZone)
          return (
            <li key={sentence}>
              {sentence} {due && <span className="muted">{due}</span>}
            </li>
          )
        })}
        {sentences.length === 0 && <li>Nothing is asked for by this assessment.</li>}
      </ol>
      {acute && (
        <div className={css.boxed}>
          <h3>If it trips</h3>
          <p>
            Engineer and operations decide now whether automatic reclosing stays on. After a trip, no trial energization before{' '}
            {spanName(detail)} has been patrolled.
          </p>
        </div>
      )}
      <p className={css.small}>{caution}</p>
    </section>
  )
}

function spanName(d: SpliceDetail): string {
  if (d.structure_back && d.structure_ahead) return `the span STR ${d.structure_back} to ${d.structure_ahead} of ${d.circuit}`
  return `this span of ${d.circuit}`
}
