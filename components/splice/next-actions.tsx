import css from '@/components/ui/sheet.module.css'
import type { SpliceDetail } from '@/lib/contract/contract'
import { formatAllowed } from '@/lib/units/format'
import { formatDate, formatDateTime } from '@/lib/units/time'
import { durationText } from './age'
import type { StoredAssessment } from './assessment'
import { dueOf, lastTold } from './due'
import { limitActions, openLimitOf } from './governing'

export interface NextActionsProps {
  detail: SpliceDetail
  assessment: StoredAssessment | null
  sentences: string[]
  caution: string
  timeZone: string
  nowMs: number
}

/** What to do and by when; the caution stands here, where it is decided, and nowhere else. */
export function NextActions({ detail, assessment, sentences, caution, timeZone, nowMs }: NextActionsProps) {
  const acute = detail.class === 'urgent' || detail.class === 'critical'
  // What holding a class adds stands before what the assessment itself asks for.
  const added = sentences.length - (assessment?.nextActions.length ?? sentences.length)
  const told = lastTold(detail.history)
  const dues = (assessment?.nextActions ?? []).map((action) => dueOf(action, detail, timeZone, nowMs))
  const ofLimit = limitActions(detail, nowMs)
  const proposes = ofLimit.length > 0 && !openLimitOf(detail) // it says so there
  const notAgreed = acute && detail.removed_on === null && !proposes ? noLimitAgreed(detail) : ''
  return (
    <section className={css.part}>
      <h2>Next</h2>
      <ol className={css.sentences}>
        {ofLimit.map((sentence) => (
          <li key={sentence}>
            <strong>{sentence}</strong>
          </li>
        ))}
        {sentences.map((sentence, i) => {
          const action = assessment?.nextActions[i - added]
          if (action?.code === 'call-control-room' && told) {
            return (
              <li key={sentence}>
                {told.told_to === null ? 'Control room told' : `Control room told: ${told.told_to},`} {formatDateTime(Date.parse(told.told_at ?? told.at), timeZone)}, noted by {told.by}.
              </li>
            )
          }
          const due = dues[i - added] ?? null
          const said = action?.code === 'measure-again' && due?.overdue === false && sentence.includes(' by ') // its day stands in the sentence
          return (
            <li key={sentence}>
              {due?.overdue ? sentence.replace(/: overdue since .*/, '.') : sentence} {due && !said && (due.overdue ? <strong className={css.overdue}>{due.text}</strong> : <span className="muted">{due.text}</span>)}
            </li>
          )
        })}
        {notAgreed !== '' && <li>{notAgreed}</li>}
        {sentences.length + ofLimit.length === 0 && <li>Nothing is asked for by this assessment.</li>}
      </ol>
      <p className={css.small}>{caution}</p>
      <Raised detail={detail} timeZone={timeZone} nowMs={nowMs} onPaper={!dues.some((due) => due?.overdue)} />
    </section>
  )
}

/** How old the finding is: when it was measured, and since when people were shown it. What that makes overdue stands in Next, once. */
function Raised({ detail, timeZone, nowMs, onPaper }: Pick<NextActionsProps, 'detail' | 'timeZone' | 'nowMs'> & { onPaper: boolean }) {
  if (detail.raised_at === null) return null
  const firstAt = detail.first_found_at ?? detail.found_at
  const day = (at: string) => formatDate(Date.parse(at), timeZone)
  const againAt = detail.found_at !== null && firstAt !== null && detail.found_at > firstAt && day(detail.found_at) !== day(firstAt) ? detail.found_at : null
  const ago = (at: string) => `${formatDateTime(Date.parse(at), timeZone)}, ${durationText(nowMs - Date.parse(at))} ago`
  return (
    <p className={onPaper ? css.small : `${css.small} no-print`}>
      {firstAt !== null && `Found ${ago(firstAt)}${againAt === null ? '' : `, and as bad again on ${day(againAt)}`}. `}
      Learned of here {ago(detail.raised_at)}.
    </p>
  )
}

/** What an urgent or critical splice may carry is nobody's word until a rating engineer agrees; empty where one did. */
function noLimitAgreed({ limits, outlook }: Pick<SpliceDetail, 'limits' | 'outlook'>): string {
  const open = openLimitOf({ limits })
  if (open && open.agreed_at !== null) return ''
  if (open) return `No limit agreed yet: ${formatAllowed(open.line_a)} per phase, proposed by ${open.proposed_by}, waits for the rating engineer.`
  const advised = outlook?.limit?.limited_by === 'splice' ? `propose ${formatAllowed(outlook.limit.line_a)} per phase, or ask the rating engineer` : 'ask the rating engineer'
  return `No limit agreed: ${advised}.`
}
