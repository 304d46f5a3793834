import Link from 'next/link'
import { ClassMark } from '@/components/map/class-mark'
import type { CircuitSummary } from '@/lib/contract/contract'
import { formatNumber } from '@/lib/units/format'
import css from './late.module.css'

type Counts = Pick<CircuitSummary['unsettled'], 'urgent' | 'critical'>

/** '+1 critical, 2 urgent, place not settled'; empty where there is none. */
export function unsettledText({ critical, urgent }: Counts): string {
  const parts = [critical > 0 ? `${formatNumber(critical, 0)} critical` : '', urgent > 0 ? `${formatNumber(urgent, 0)} urgent` : ''].filter(Boolean)
  return parts.length === 0 ? '' : `+${parts.join(', ')}, place not settled`
}

/** Readings that may be of this circuit and wait in review: no splice has their class yet, so they stand beside its splices. */
export function Unsettled({ of }: { of: Counts & { reading_id: number | null } }) {
  const text = unsettledText(of)
  if (text === '') return null
  return (
    <Link className={css.unsettled} href={of.reading_id === null ? '/intake/review' : `/intake/review?reading=${of.reading_id}`} prefetch={false}>
      <ClassMark class={of.critical > 0 ? 'critical' : 'urgent'} size={14} />
      {text}
    </Link>
  )
}
