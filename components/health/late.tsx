import type { CircuitHealth } from '@/lib/contract/contract'
import { formatNumber } from '@/lib/units/format'
import { countsSentence } from './class-bar'
import css from './late.module.css'

type Counts = CircuitHealth['past_response']

export const allLate = ({ critical, urgent, degraded }: Counts): number => critical + urgent + degraded

interface Props {
  late: Counts
  /** Those whose reading lay longer than that before it was read in. */
  unread: CircuitHealth['read_in_late']
}

/** How many splices stand past the response time of their class; apart from them those that were past it before anybody here could know. */
export function Late({ late, unread }: Props) {
  const all = allLate(late)
  const before = allLate(unread)
  return (
    <span className={css.late}>
      {all === 0 ? <span className="muted">none since shown</span> : <b>{formatNumber(all, 0)} since shown</b>}
      {all > 0 && <small>{countsSentence(late)}</small>}
      {before > 0 && (
        <>
          <small className={css.stale}>{formatNumber(before, 0)} before read in</small>
          {unread.longest_days !== null && <small>longest {formatNumber(unread.longest_days, 0)} d</small>}
        </>
      )}
    </span>
  )
}
