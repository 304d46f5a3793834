'use client'
import Link from 'next/link'
import { circuitsText, placeText, ratioText, subjectText, toldText, withdrawnText } from '@/components/intake/urgent-words'
import { ClassMark } from '@/components/map/class-mark'
import { num } from '@/components/ui/data-table'
import { useTimeZone } from '@/components/ui/preferences'
import type { ConditionClass } from '@/lib/condition/types'
import type { ItemOf } from '@/lib/contract/changes'
import { reviewCauseText } from '@/lib/geo/review-cause'
import { formatAllowed, formatAllowedMva, formatNumber } from '@/lib/units/format'
import { formatDate, formatDateTime } from '@/lib/units/time'
import { Part, SpliceCell, type PartProps } from './part'
import { advisedCause, readingsText, stepWords } from './words'
import css from './changes.module.css'

const when = (at: string, timeZone: string): string => formatDateTime(Date.parse(at), timeZone)

function ClassCell({ of, held = false }: { of: ConditionClass; held?: boolean }) {
  return (
    <td data-label="Class">
      <span className={css.step}>
        <ClassMark class={of} size={14} />
        {of}
        {held ? ', held' : ''}
      </span>
    </td>
  )
}

/** What the control room is to be told, those it was not told of first. */
export function NoticePart(props: PartProps<'notice'>) {
  const timeZone = useTimeZone()
  return (
    <Part {...props} heads={['Of what', 'Class', 'Where', 'Raised', 'Control room']} row={(u) => (
      <tr key={u.notice_id}>
        <th scope="row">
          <NoticeLink of={u} />
          <small>{u.survey}</small>
        </th>
        <ClassCell of={u.class} />
        <td data-label="Where">
          {[ratioText(u), circuitsText(u), placeText(u)].filter(Boolean).join(', ')}
          {u.withdrawn && <small>{withdrawnText(u.withdrawn)}</small>}
        </td>
        <td data-label="Raised" className={css.when}>{when(u.raised_at, timeZone)}</td>
        <td data-label="Control room">{u.acknowledged_at === null ? <b className={css.rise}>not told yet</b> : `told: ${toldText(u, timeZone)}`}</td>
      </tr>
    )} />
  )
}

/** To the splice, to the review of its place, or to the report of the file whose row was not read. */
function NoticeLink({ of }: { of: ItemOf<'notice'> }) {
  const href = of.splice_id !== null ? `/splices/${of.splice_id}` : of.reading_id === null ? of.not_read && `/intake/${of.not_read.import_id}`
    : of.withdrawn ? null : `/intake/review?reading=${of.reading_id}`
  return href ? <Link href={href} prefetch={false}>{subjectText(of)}</Link> : subjectText(of)
}

export function ConflictPart(props: PartProps<'conflict'>) {
  const timeZone = useTimeZone()
  return (
    <Part {...props} heads={['Splice', 'Class', 'What contradicts', 'Position', 'Since']} row={(item) => (
      <tr key={item.id}>
        <SpliceCell of={item} />
        <ClassCell of={item.class} held={item.held} />
        <td data-label="What contradicts">
          {item.flags.map(({ text }) => text).join(' ')}
          {item.file_name && <small>After {item.file_name}</small>}
        </td>
        <td data-label="Position">{item.position_text}</td>
        <td data-label="Since" className={css.when}>{when(item.at, timeZone)}</td>
      </tr>
    )} />
  )
}

export function AdvisedPart(props: PartProps<'advised'>) {
  const timeZone = useTimeZone()
  const figure = (lineA: number | null) => (lineA === null ? 'no figure' : formatAllowed(lineA))
  return (
    <Part {...props} heads={['Splice', 'Class', 'Advised, per phase', 'Why', 'Since']}
      note="Figures for the rating engineer, at rating weather. A limit in force holds whatever is advised. Changes under one per cent, as age brings them, are not among them."
      row={(item) => (
        <tr key={item.id}>
          <SpliceCell of={item} />
          <ClassCell of={item.class} held={item.held} />
          <td data-label="Advised, per phase">
            {figure(item.from_a)} <i aria-hidden="true">→</i><span className="visually-hidden">to</span> <b className={isRaised(item) ? css.rise : undefined}>{figure(item.to_a)}</b>
          </td>
          <td data-label="Why">{advisedCause(item)}</td>
          <td data-label="Since" className={css.when}>{when(item.at, timeZone)}</td>
        </tr>
      )} />
  )
}

const isRaised = ({ from_a: from, to_a: to }: ItemOf<'advised'>): boolean => to !== null && from !== null && to > from

export function LimitPart(props: PartProps<'limit'>) {
  const timeZone = useTimeZone()
  return (
    <Part {...props} heads={['Splice', 'Step', 'Line current per phase', 'By and why', 'When']} row={(item) => (
      <tr key={`${item.limit_id} ${item.step}`}>
        <SpliceCell of={item} />
        <td data-label="Step">{stepWords(item.step)}</td>
        <td data-label="Line current per phase">
          <b>{formatAllowed(item.line_a)}</b>
          {item.mva !== null && <small>{formatAllowedMva(item.mva)} MVA</small>}
        </td>
        <td data-label="By and why">
          {item.by}
          {item.why && <small>“{item.why}”</small>}
        </td>
        <td data-label="When" className={css.when}>{when(item.at, timeZone)}</td>
      </tr>
    )} />
  )
}

export function ClearedPart(props: PartProps<'cleared'>) {
  const timeZone = useTimeZone()
  return (
    <Part {...props} heads={['Splice', 'Class', 'Engineer and reason', 'Position', 'When']} row={(item) => (
      <tr key={`${item.id} ${item.at}`}>
        <SpliceCell of={item} />
        <td data-label="Class" className={css.classes}>
          <span className={css.step}><ClassMark class={item.from} size={14} />{item.from}</span>
          <span className={css.step}><i aria-hidden="true">→</i><span className="visually-hidden">to</span><ClassMark class={item.to} size={14} />{item.to}</span>
        </td>
        <td data-label="Engineer and reason">
          {item.engineer}
          <small>“{item.reason}” Noted by {item.by}</small>
        </td>
        <td data-label="Position">{item.position_text}</td>
        <td data-label="When" className={css.when}>{when(item.at, timeZone)}</td>
      </tr>
    )} />
  )
}

export function RepairPart(props: PartProps<'repair'>) {
  const timeZone = useTimeZone()
  return (
    <Part {...props} heads={['Splice', 'Class now', 'Read after repair', 'Position', 'Came in']}
      note="Their surveys mark them as taken after a repair. They show the current path; the strength of the splice they do not."
      row={(item) => (
        <tr key={`${item.id} ${item.survey}`}>
          <SpliceCell of={item} />
          <ClassCell of={item.class} held={item.held} />
          <td data-label="Read after repair">
            {item.readings === 1 ? '1 reading' : `${formatNumber(item.readings, 0)} readings`}
            <small>{[item.survey, item.taken_at && formatDate(Date.parse(item.taken_at), timeZone)].filter(Boolean).join(', ')}</small>
          </td>
          <td data-label="Position">{item.position_text}</td>
          <td data-label="Came in" className={css.when}>{when(item.at, timeZone)}</td>
        </tr>
      )} />
  )
}

export function ReadingPart(props: PartProps<'reading'>) {
  const timeZone = useTimeZone()
  return (
    <Part {...props} heads={['Survey', 'Circuit', 'Readings', 'File', 'Came in']} row={(item) => (
      <tr key={`${item.import_id} ${item.survey} ${item.circuit_id}`}>
        <th scope="row">{item.survey}</th>
        <td data-label="Circuit">{item.circuit_id === null ? 'no place yet' : <Link href={`/circuits/${item.circuit_id}`} prefetch={false}>{item.circuit}</Link>}</td>
        <td data-label="Readings">
          {formatNumber(item.readings, 0)}
          <small>{readingsText(item)}</small>
        </td>
        <td data-label="File">
          <Link href={`/intake/${item.import_id}`} prefetch={false}>{item.file_name}</Link>
          <small>by {item.by}</small>
        </td>
        <td data-label={item.undone ? 'Undone' : 'Came in'} className={css.when}>{when(item.at, timeZone)}</td>
      </tr>
    )} />
  )
}

export function WaitingPart(props: PartProps<'waiting'>) {
  return (
    <Part {...props} heads={['Why they wait', 'Readings', 'Of them since then', 'Urgent or critical']} row={(item) => (
      <tr key={item.cause}>
        <th scope="row">
          <Link href={item.cause === null ? '/intake/review' : `/intake/review?cause=${item.cause}`} prefetch={false}>
            {item.cause === null ? 'Another reason' : reviewCauseText(item.cause)}
          </Link>
        </th>
        <td data-label="Readings" className={num}>{formatNumber(item.count, 0)}</td>
        <td data-label="Of them since then" className={num}>{formatNumber(item.since, 0)}</td>
        <td data-label="Urgent or critical" className={num}>{item.urgent > 0 ? <b className={css.rise}>{formatNumber(item.urgent, 0)}</b> : '0'}</td>
      </tr>
    )} />
  )
}
