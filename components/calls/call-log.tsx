'use client'
import { Fragment } from 'react'
import Link from 'next/link'
import { ClassMark } from '@/components/map/class-mark'
import { cx } from '@/components/ui/class-names'
import { useTimeZone, useUnitSystem } from '@/components/ui/preferences'
import type { CallEntryJson } from '@/lib/contract/calls'
import { spell } from '@/lib/units/spelling'
import { formatDate, formatTime } from '@/lib/units/time'
import { StrikeButton } from './strike-button'
import { decidedText, notedText, struckText, whoText } from './words'
import css from './calls.module.css'

/** The log, newest first, a heading for each day. `marked`: the entry that an address names. */
export function CallLog({ entries, marked }: { entries: readonly CallEntryJson[]; marked: string | null }) {
  const timeZone = useTimeZone()
  const dayOf = ({ at }: CallEntryJson) => formatDate(Date.parse(at), timeZone)
  return (
    <ol className={css.log} aria-label="Calls, newest first">
      {entries.map((entry, i) => {
        const before = entries[i - 1]
        return (
          <Fragment key={entry.key}>
            {(before === undefined || dayOf(before) !== dayOf(entry)) && <li className={css.day}>{dayOf(entry)}</li>}
            <Entry entry={entry} marked={marked === entry.key} />
          </Fragment>
        )
      })}
    </ol>
  )
}

function Entry({ entry, marked }: { entry: CallEntryJson; marked: boolean }) {
  const timeZone = useTimeZone()
  const [system] = useUnitSystem()
  const decided = spell(decidedText(entry), system)
  const noted = notedText(entry, timeZone)
  const struck = entry.struck_at !== null
  return (
    <li id={entry.key} className={cx(css.entry, struck && css.struck, marked && css.marked)}>
      <a className={css.when} href={`?since=${encodeURIComponent(entry.at)}#${entry.key}`} title="Link to this entry">
        <time dateTime={entry.at}>{formatTime(Date.parse(entry.at), timeZone)}</time>
      </a>
      <span className={css.about}>
        <ClassMark class={entry.class} size={14} />
        <span>
          {entry.splice_id === null ? <strong>{entry.splice ?? 'Place not settled'}</strong> : <Link href={`/operations?sel=splice-${entry.splice_id}`}>{entry.splice}</Link>}{' '}
          <span className="muted">{[entry.class, entry.circuit].filter(Boolean).join(', ')}</span>
          {entry.position_text !== null && <small>{entry.position_text}</small>}
        </span>
      </span>
      <span className={css.said}>
        <span>
          {decided === '' ? whoText(entry) : <strong>{decided}</strong>}
          {entry.note !== null && <>. {entry.note}</>}
        </span>
        <small>
          {[decided === '' ? '' : whoText(entry), entry.kind === 'call' && entry.told_control_room ? 'the control room was told with it' : '', noted].filter(Boolean).join(', ')}
        </small>
        {struck && <small className={css.strike}>{struckText(entry, timeZone)}</small>}
      </span>
      <span className="no-print">{!struck && entry.kind !== 'told' && <StrikeButton entry={entry} />}</span>
    </li>
  )
}
