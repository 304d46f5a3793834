'use client'
import { useState } from 'react'
import Link from 'next/link'
import { ClassMark } from '@/components/map/class-mark'
import { Button } from '@/components/ui/button'
import { cx } from '@/components/ui/class-names'
import { Icon } from '@/components/ui/icons'
import { useTimeZone, useUnitSystem } from '@/components/ui/preferences'
import { ToldButton } from '@/components/intake/told-dialog'
import {
  circuitsText, notReadText, placeText, provisionalText, ratioText, rowNumbersText, spokenText, subjectText, tableText, untoldText, withdrawnText, worstFirst,
} from '@/components/intake/urgent-words'
import type { UrgentReading } from '@/lib/contract/urgent'
import { formatRatio } from '@/lib/units/format'
import { formatDateTime } from '@/lib/units/time'
import { useUrgent } from './queries'
import css from './urgent-strip.module.css'

type Open = (spliceId: number, place: { lon: number; lat: number } | null) => void

/** What is urgent or critical and the control room was not told of: before everything else, placed or not, read or not. `brief`: in one line. */
export function UrgentStrip({ count, onOpen, brief, className }: { count: number | undefined; onOpen: Open; brief: boolean; className?: string }) {
  const urgent = useUrgent(count)
  const [open, setOpen] = useState(false)
  const waiting = (urgent.data ?? []).filter((u) => u.acknowledged_at === null).toSorted(worstFirst)
  const worst = waiting[0]
  if (!count || !worst) return null
  return (
    <section className={cx(css.strip, className)} aria-label="Call the control room now">
      <div className={css.line}>
        <span className={css.title} role="alert">
          <Icon name="phone" />
          Call the control room now
        </span>
        <span className={cx(css.text, brief && !open && 'visually-hidden')}>
          {untoldText(waiting)}
          {worst.class}, {ratioText(worst)}
          {worst.provisional || worst.by_table?.typed !== undefined ? ' (provisional)' : ''}
          , {spokenText(worst)}
          <span className={css.worst}>
            {worst.withdrawn ? `, ${withdrawnText(worst.withdrawn)}` : ''}
            {worst.reading_id === null ? ', of a row that was not read' : ''}
          </span>
          .
        </span>
        <Button size="small" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? 'Hide' : waiting.length === 1 ? 'Show it' : `Show all ${waiting.length}`}
        </Button>
      </div>
      {open && (
        <ul className={css.list} aria-label="Not told yet, worst first">
          {waiting.map((u) => (
            <Item key={u.notice_id} urgent={u} onOpen={onOpen} />
          ))}
        </ul>
      )}
    </section>
  )
}

function Item({ urgent: u, onOpen }: { urgent: UrgentReading; onOpen: Open }) {
  const timeZone = useTimeZone()
  const [system] = useUnitSystem()
  const where = placeText(u)
  const cautions = [notReadText(u), provisionalText(u), tableText(u)].filter(Boolean)
  return (
    <li className={css.item}>
      <span className={cx(css.class, u.class === 'critical' && css.critical)}>
        <ClassMark class={u.class} size={16} />
        {u.class}
      </span>
      <b className={css.ratio}>{u.ratio === null ? '' : formatRatio(u.ratio)}</b>
      <span className={css.subject}>
        <strong>{subjectText(u)}</strong>
        <small>{[u.reading_id === null && u.reading_key !== null ? `reading ${u.reading_key}` : '', u.survey, u.taken_at ? formatDateTime(Date.parse(u.taken_at), timeZone) : 'time not known'].filter(Boolean).join(', ')}</small>
      </span>
      <span className={css.where}>
        {circuitsText(u)}
        {where === '' ? '' : `, ${where}`}
        {u.placement_state === 'review' ? ', place not settled' : ''}
        {u.basis === 'assessment' ? ', by the assessment, no reading by itself' : ''}
        {u.reading_id === null && rowNumbersText(u, system) !== '' && `; ${rowNumbersText(u, system)}`}
        {u.withdrawn && <strong>, {withdrawnText(u.withdrawn)}</strong>}
        {cautions.map((caution) => (
          <span key={caution} className={css.doubt}>
            {caution}
          </span>
        ))}
      </span>
      <span className={css.acts}>
        <WhereTo urgent={u} onOpen={onOpen} />
        <ToldButton of={{ noticeId: u.notice_id }} class={u.class} about={`${u.class}, ${ratioText(u)}, ${spokenText(u)}`} />
      </span>
    </li>
  )
}

/** The splice, the review of its place, or the report of the file whose row was not read. */
function WhereTo({ urgent: u, onOpen }: { urgent: UrgentReading; onOpen: Open }) {
  const spliceId = u.splice_id
  const place = u.lon !== null && u.lat !== null ? { lon: u.lon, lat: u.lat } : null
  if (spliceId !== null) {
    return (
      <Button size="small" onClick={() => onOpen(spliceId, place)}>
        Show sheet
      </Button>
    )
  }
  if (u.reading_id === null && u.not_read) {
    return (
      <Button size="small" asChild>
        <Link href={`/intake/${u.not_read.import_id}`}>Open file</Link>
      </Button>
    )
  }
  if (u.withdrawn) return null
  return (
    <Button size="small" asChild>
      <Link href={`/intake/review?reading=${u.reading_id}`}>Place it</Link>
    </Button>
  )
}
