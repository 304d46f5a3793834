import type { ReactNode } from 'react'
import { cx } from '@/components/ui/class-names'
import css from '@/components/ui/sheet.module.css'
import { unbroken } from '@/components/ui/unbroken'
import type { SpliceDetail } from '@/lib/contract/contract'
import type { UnitSystem } from '@/lib/units/format'
import { spell } from '@/lib/units/spelling'
import { formatDateTime } from '@/lib/units/time'
import type { StoredAssessment } from './assessment'
import { Carries } from './carries'
import { Flows } from './flows'
import { ASK, calledLines, isolationText, notedText, supplyText, timesText } from './trip-words'
import { willItDrop } from './will-it-drop'

interface Props {
  detail: SpliceDetail
  assessment: StoredAssessment | null
  system: UnitSystem
  timeZone: string
  nowMs: number
  /** Where it is noted who loses supply, what isolates it and who is called. */
  note?: ReactNode
}

/** What operations asks, in its order: will it drop, what may it carry, what flows, who loses supply, what isolates it, who is called; and if it trips. */
export function OperationsAsks({ detail, assessment, system, timeZone, nowMs, note }: Props) {
  const { if_it_trips: trip } = detail
  const [drops, ...why] = willItDrop(detail, assessment, system, timeZone, nowMs)
  const called = calledLines(trip)
  const noted = notedText(trip, timeZone)
  return (
    <>
      {drops !== undefined && (
        <section className={cx(css.part, css.whole)}>
          <h2>Will it drop?</h2>
          <p>
            <strong>{drops}</strong>
          </p>
          <p className={css.second}>{why.join(' ')}</p>
        </section>
      )}
      <Carries detail={detail} system={system} timeZone={timeZone} nowMs={nowMs} />
      <Flows detail={detail} system={system} timeZone={timeZone} nowMs={nowMs} />
      <section className={cx(css.part, css.whole, css.beside3)}>
        <h2>Who loses supply</h2>
        <Said of={supplyText(trip)} known={trip.loses_supply !== null} />
      </section>
      <section className={cx(css.part, css.whole, css.beside3)}>
        <h2>What isolates it</h2>
        <Said of={isolationText(trip)} known={trip.isolated_by !== null} />
      </section>
      <section className={cx(css.part, css.whole, css.beside3)}>
        <div>
          <h2>Who is called</h2>
          {note && <p className={`${css.noteIt} no-print`}>{note}</p>}
        </div>
        <div className={cx(css.said, css.split)}>
          {called.length === 0 ? <p className={css.note}>{ASK.called}</p> : (
            <ol className={css.calledList}>
              {called.map((line) => (
                <li key={line}>{unbroken(line)}</li>
              ))}
            </ol>
          )}
          <div>
            <p className={trip.on_site_h === null && trip.repair_h === null && trip.recall_h === null ? css.note : undefined}>{timesText(trip)}</p>
            {noted !== '' && <p className={`${css.small} no-print`}>{noted}</p>}
          </div>
        </div>
      </section>
      {detail.removed_on === null && (detail.class === 'urgent' || detail.class === 'critical') && <Trips detail={detail} system={system} timeZone={timeZone} />}
    </>
  )
}

function Said({ of: [first, ...rest], known }: { of: string[]; known: boolean }) {
  return (
    <p className={cx(css.said, !known && css.note)}>
      {unbroken(first ?? '')} {rest.length > 0 && <span className="muted">{unbroken(rest.join(' '))}</span>}
    </p>
  )
}

/** What is decided before it trips, and what is not done after. */
function Trips({ detail, system, timeZone }: { detail: SpliceDetail; system: UnitSystem; timeZone: string }) {
  const decided = detail.calls.find((one) => one.struck_at === null && one.decided.some((what) => what === 'reclosing-blocked' || what === 'reclosing-left-on'))
  const kept = decided?.decided.includes('reclosing-blocked') ? 'blocked' : 'left on'
  return (
    <section className={cx(css.part, css.whole)}>
      <div className={css.boxed}>
        <h2>If it trips</h2>
        <p>
          {decided ? `Automatic reclosing ${kept}, decided ${formatDateTime(Date.parse(decided.at), timeZone)}. `
            : spell('Engineer and operations decide now whether automatic reclosing stays on. ', system)}
          {spell('After a trip, no trial energisation before', system)} {unbroken(spanName(detail))} has been patrolled.
        </p>
      </div>
    </section>
  )
}

function spanName(d: SpliceDetail): string {
  if (d.structure_back && d.structure_ahead) return `the span STR ${d.structure_back} to ${d.structure_ahead} of ${d.circuit}`
  return `this span of ${d.circuit}`
}
