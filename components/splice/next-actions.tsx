import css from '@/components/ui/sheet.module.css'
import type { SpliceDetail } from '@/lib/contract/contract'
import { formatDateTime } from '@/lib/units/time'
import type { StoredAssessment } from './assessment'

const HOUR_MS = 3_600_000

/** The moment an action is due, counted from the assessment that asked for it; null where policy sets no time. */
export function dueAtMs(action: { withinHours?: number; withinDays?: number } | undefined, assessedAt: string | null): number | null {
  if (!action || !assessedAt) return null
  if (action.withinHours !== undefined) return Date.parse(assessedAt) + action.withinHours * HOUR_MS
  return action.withinDays === undefined ? null : Date.parse(assessedAt) + action.withinDays * 24 * HOUR_MS
}

/** What to do and by when; the caution stands here, where it is decided, and nowhere else. */
export function NextActions({ detail, assessment, timeZone }: { detail: SpliceDetail; assessment: StoredAssessment | null; timeZone: string }) {
  const actions = detail.assessment_text?.next_actions ?? []
  const acute = detail.class === 'urgent' || detail.class === 'critical'
  if (actions.length === 0 && !acute) return null
  const matching = assessment && assessment.nextActions.length === actions.length ? assessment.nextActions : []
  return (
    <section className={css.part}>
      <h2>Next</h2>
      <ol className={css.sentences}>
        {actions.map((sentence, i) => {
          const due = dueAtMs(matching[i], detail.assessed_at)
          return <li key={sentence}>{sentence}{due !== null && <span className="muted"> By {formatDateTime(due, timeZone)}.</span>}</li>
        })}
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
      <p className={css.small}>
        Advice from readings, thermal only: it says nothing of tension or fault current. Your procedures, local codes and the responsible engineer decide.
      </p>
    </section>
  )
}

function spanName(d: SpliceDetail): string {
  if (d.structure_back && d.structure_ahead) return `the span STR ${d.structure_back} to ${d.structure_ahead} of ${d.circuit}`
  return `this span of ${d.circuit}`
}
