import type { CircuitHealth } from '@/lib/contract/contract'
import { formatNumber } from '@/lib/units/format'
import { countsSentence } from './class-bar'
import css from './late.module.css'

/** How many splices stand past the response time of their class. */
export function Late({ late }: { late: CircuitHealth['past_response'] }) {
  const all = late.critical + late.urgent + late.degraded
  if (all === 0) return <span className="muted">none</span>
  return (
    <span className={css.late}>
      <b>{formatNumber(all, 0)}</b>
      <small>{countsSentence(late)}</small>
    </span>
  )
}
