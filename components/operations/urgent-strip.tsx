'use client'
import { useState } from 'react'
import Link from 'next/link'
import { ClassMark } from '@/components/map/class-mark'
import { Button } from '@/components/ui/button'
import { cx } from '@/components/ui/class-names'
import { asSentences } from '@/components/ui/fetch-json'
import { Icon } from '@/components/ui/icons'
import { useTimeZone } from '@/components/ui/preferences'
import { useToast } from '@/components/ui/toast'
import type { UrgentReading } from '@/lib/contract/contract'
import { formatRatio, formatSure } from '@/lib/units/format'
import { formatDateTime } from '@/lib/units/time'
import { useAcknowledge, useUrgent } from './queries'
import { provisionalText, TOLD, toldText, withdrawnText } from '@/components/intake/urgent-words'
import css from './urgent-strip.module.css'

type Open = (spliceId: number, place: { lon: number; lat: number } | null) => void

/** What is urgent or critical and the control room was not told of: before everything else, placed or not. */
export function UrgentStrip({ count, onOpen, className }: { count: number | undefined; onOpen: Open; className?: string }) {
  const urgent = useUrgent(count)
  const [open, setOpen] = useState(false)
  const untold = (urgent.data ?? []).filter((u) => u.acknowledged_at === null)
  const waiting = [...untold.filter((u) => !u.withdrawn), ...untold.filter((u) => u.withdrawn)]
  const worst = waiting[0]
  if (!count || !worst) return null
  return (
    <section className={cx(css.strip, className)} aria-label="Call the control room now">
      <div className={css.line}>
        <span className={css.title} role="alert">
          <Icon name="phone" />
          Call the control room now
        </span>
        <span className={css.text}>
          {waiting.length === 1
            ? 'The control room has not been told of one finding: '
            : `The control room has not been told of ${waiting.length} findings. Worst: `}
          {worst.class}, {ratioText(worst)}{worst.provisional ? ' (provisional)' : ''}, {circuitsText(worst)}
          {worst.withdrawn ? `, ${withdrawnText(worst.withdrawn)}` : ''}.
        </span>
        <Button size="small" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? 'Hide' : waiting.length === 1 ? 'Show it' : `Show all ${waiting.length}`}
        </Button>
      </div>
      {open && (
        <ul className={css.list}>
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
  const toast = useToast()
  const acknowledge = useAcknowledge()
  const spliceId = u.splice_id
  const place = u.lon !== null && u.lat !== null ? { lon: u.lon, lat: u.lat } : null
  const onTold = async () => {
    try {
      const told = await acknowledge.mutateAsync(u.reading_id)
      toast({ title: TOLD, detail: [toldText(told, timeZone), `${u.class}, ${ratioText(u)}, ${circuitsText(u)}`].join('. ') })
    } catch (e) {
      const { title, remedy } = asSentences(e)
      toast({ title, detail: remedy, tone: 'error' })
    }
  }
  return (
    <li className={css.item}>
      <span className={css.class}>
        <ClassMark class={u.class} size={16} />
        {u.class}
        <b>{u.ratio === null ? '' : formatRatio(u.ratio)}</b>
      </span>
      <span>
        <strong>{u.splice ?? readingName(u)}</strong>{' '}
        <span className="muted">
          {u.survey}
          {u.taken_at ? `, ${formatDateTime(Date.parse(u.taken_at), timeZone)}` : ''}
        </span>
      </span>
      <span className={css.where}>
        {circuitsText(u)}
        {u.position_text ? `, ${u.position_text}` : ''}
        {u.placement_state === 'review' ? ', place not settled' : ''}
        {u.basis === 'assessment' ? ', by the assessment, no reading by itself' : ''}
        {u.withdrawn && <strong>, {withdrawnText(u.withdrawn)}</strong>}
        {u.provisional && <span className={css.doubt}>{provisionalText(u)}</span>}
      </span>
      <span className={css.acts}>
        {spliceId !== null ? (
          <Button size="small" onClick={() => onOpen(spliceId, place)}>
            Open
          </Button>
        ) : u.withdrawn ? null : (
          <Button size="small" asChild>
            <Link href={`/intake/review?reading=${u.reading_id}`}>Place it</Link>
          </Button>
        )}
        <Button size="small" busy={acknowledge.isPending} onClick={() => void onTold()}>
          {TOLD}
        </Button>
      </span>
    </li>
  )
}

/** A finding that engineering must see at once has no ratio. */
const ratioText = (u: Pick<UrgentReading, 'ratio'>): string => (u.ratio === null ? 'by what was seen' : `ratio ${formatRatio(u.ratio)}`)

/** A reading of a file without ids bears a hash, which names nothing to anybody: the row says more. */
const readingName = (u: Pick<UrgentReading, 'reading_key' | 'row'>): string =>
  /^[0-9a-f]{32}$/.test(u.reading_key) && u.row ? `Row ${u.row}` : u.reading_key

/** The circuit, or the candidates with how likely each is. */
export function circuitsText(u: Pick<UrgentReading, 'circuits'>): string {
  const [only] = u.circuits
  if (!only) return 'circuit not known'
  const name = (c: UrgentReading['circuits'][number]) => (c.line_name ? `${c.circuit} (${c.line_name})` : c.circuit)
  if (u.circuits.length === 1) return name(only)
  return `one of ${u.circuits.map((c) => name(c) + (c.probability === null ? '' : `, ${formatSure(c.probability)}`)).join('; ')}`
}
