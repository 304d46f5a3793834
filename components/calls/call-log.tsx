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
import { classThen, decidedText, groupedBySplice, notedText, struckText, whoText } from './words'
import css from './calls.module.css'

/** The log, newest first, a heading for each day, a splice's entries of a day together. `marked`: the entry that an address names. */
export function CallLog({ entries, marked }: { entries: readonly CallEntryJson[]; marked: string | null }) {
  const timeZone = useTimeZone()
  const dayOf = ({ at }: CallEntryJson) => formatDate(Date.parse(at), timeZone)
  return (
    <ol className={css.log} aria-label="Calls, newest first">
      {daysOf(entries, dayOf).map(([day, ofDay]) => (
        <Fragment key={day}>
          <li className={css.day}>{day}</li>
          {groupedBySplice(ofDay).map(({ entry, repeats }) => <Entry key={entry.key} entry={entry} repeats={repeats} marked={marked === entry.key} />)}
        </Fragment>
      ))}
    </ol>
  )
}

function daysOf(entries: readonly CallEntryJson[], dayOf: (entry: CallEntryJson) => string): [day: string, entries: CallEntryJson[]][] {
  const days = new Map<string, CallEntryJson[]>()
  for (const entry of entries) days.set(dayOf(entry), [...(days.get(dayOf(entry)) ?? []), entry])
  return [...days]
}

function Entry({ entry, repeats, marked }: { entry: CallEntryJson; /** Under a newer one of the same splice and day. */ repeats: boolean; marked: boolean }) {
  const timeZone = useTimeZone()
  const [system] = useUnitSystem()
  const decided = spell(decidedText(entry), system)
  const noted = notedText(entry, timeZone)
  const struck = entry.struck_at !== null
  return (
    <li id={entry.key} className={cx(css.entry, repeats && css.repeat, struck && css.struck, marked && css.marked)}>
      <a className={css.when} href={`?since=${encodeURIComponent(entry.at)}#${entry.key}`} title="Link to this entry">
        <time dateTime={entry.at}>{formatTime(Date.parse(entry.at), timeZone)}</time>
      </a>
      <span className={css.about}>
        <ClassMark class={entry.class} size={14} />
        <span>
          {entry.splice_id === null ? <strong>{entry.splice ?? 'Place not settled'}</strong> : <Link href={`/operations?sel=splice-${entry.splice_id}`}>{entry.splice}</Link>}{' '}
          <span className="muted">{[classThen(entry), repeats ? null : entry.circuit].filter(Boolean).join(', ')}</span>
          {entry.position_text !== null && !repeats && <small>{entry.position_text}</small>}
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
