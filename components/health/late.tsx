import Link from 'next/link'
import type { CircuitHealth } from '@/lib/contract/contract'
import { formatNumber } from '@/lib/units/format'
import { formatDate } from '@/lib/units/time'
import { countsSentence } from './class-bar'
import css from './late.module.css'

type Counts = CircuitHealth['past_response']
type Overdue = CircuitHealth['overdue']

export const allLate = ({ critical, urgent, degraded }: Counts): number => critical + urgent + degraded

type Longest = NonNullable<Overdue['longest']>

/** 'found 75 days ago, learned of here 12 Nov 2026'. */
export function longestWords(longest: Longest, timeZone: string): string {
  return `found ${foundAgo(longest)}, learned of here ${formatDate(Date.parse(longest.entered_at), timeZone)}`
}

const foundAgo = ({ days }: Longest): string => `${formatNumber(days, 0)} ${days === 1 ? 'day' : 'days'} ago`

/** 'counted from when it came in here: 3': of the overdue, those that would be so by that clock too. */
export function sinceLearned(late: Counts): string {
  const all = allLate(late)
  return `counted from when it came in here: ${all === 0 ? 'none yet' : formatNumber(all, 0)}`
}

interface Props {
  /** By the time since the reading was taken: the worse figure, so it leads. */
  overdue: Overdue
  /** By the time since the class was first shown here. */
  late: Counts
}

/** How many splices stand past the response time of their class, since they were found and since they were shown here. */
export function Late({ overdue, late }: Props) {
  const all = allLate(overdue)
  if (all === 0) return <span className="muted">none</span>
  const { longest } = overdue
  return (
    <span className={css.late}>
      <b>{formatNumber(all, 0)} overdue</b>
      <small>{countsSentence({ critical: overdue.critical, urgent: overdue.urgent, degraded: overdue.degraded })}</small>
      {longest && (
        <small>
          longest <Link href={`/splices/${longest.id}`} prefetch={false}>{longest.splice}</Link>, found {foundAgo(longest)}
        </small>
      )}
      {allLate(late) > 0 && <small>{sinceLearned(late)}</small>}
    </span>
  )
}
