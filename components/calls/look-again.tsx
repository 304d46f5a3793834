'use client'
import Link from 'next/link'
import { ClassMark } from '@/components/map/class-mark'
import { useTimeZone } from '@/components/ui/preferences'
import type { LookAgainJson } from '@/lib/contract/calls'
import { formatRatio } from '@/lib/units/format'
import { formatDateTime } from '@/lib/units/time'
import { LookButton } from './call-steps'
import { askedText, peakText } from './words'
import css from './calls.module.css'

/** Urgent and critical splices that nobody looked at in this peak-load period; between two, those that come back at the next. */
export function LookAgain({ of, nowMs }: { of: LookAgainJson; nowMs: number }) {
  const timeZone = useTimeZone()
  const waiting = of.acute - of.looked
  return (
    <section id="look-again" className={css.again} aria-labelledby="look-again-title">
      <div className={css.againHead}>
        <h2 id="look-again-title">{of.current ? 'To look at again this peak period' : 'To look at again at the next peak period'}</h2>
        <p>
          {of.acute === 0 ? 'Nothing is urgent or critical. ' : of.current
            ? `${waiting} of ${of.acute} urgent and critical not looked at yet. ` : `All ${of.acute} urgent and critical come back until they are repaired. `}
          {peakText(of, nowMs, timeZone)}
        </p>
      </div>
      {of.items.length > 0 && (of.current ? <Items of={of} nowMs={nowMs} /> : (
        <details className={css.later}>
          <summary>Show them</summary>
          <Items of={of} nowMs={nowMs} />
        </details>
      ))}
      {waiting > of.items.length && <p className={css.small}>The worst {of.items.length} of {waiting}.</p>}
    </section>
  )
}

function Items({ of, nowMs }: { of: LookAgainJson; nowMs: number }) {
  const timeZone = useTimeZone()
  return (
    <ul className={css.againList} aria-label="To look at again, worst first" tabIndex={0}>
      {of.items.map((one) => (
        <li key={one.splice_id}>
          <ClassMark class={one.class} size={16} />
          <span className={css.againName}>
            <Link href={`/operations?sel=splice-${one.splice_id}`}>{one.splice}</Link> <span className="muted">{one.class}, {one.circuit}</span>
          </span>
          <b>{one.ratio === null ? '' : formatRatio(one.ratio)}</b>
          <span className={css.againPlace}>{one.position_text}</span>
          <span className={css.againWhen} title={one.last_look_at === null ? undefined : `Looked at ${formatDateTime(Date.parse(one.last_look_at), timeZone)}`}>
            {askedText(one, nowMs, timeZone)}
          </span>
          {of.current && <LookButton spliceId={one.splice_id} splice={one.splice} circuit={one.circuit} />}
        </li>
      ))}
    </ul>
  )
}
