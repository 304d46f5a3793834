import { formatNumber } from '@/lib/units/format'
import css from './late.module.css'

/** How many urgent and critical splices stand past their response time. */
export function Late({ urgent, critical }: { urgent: number; critical: number }) {
  if (urgent + critical === 0) return <span className="muted">none</span>
  const of = [critical > 0 && `${critical} critical`, urgent > 0 && `${urgent} urgent`].filter(Boolean).join(', ')
  return (
    <span className={css.late}>
      <b>{formatNumber(urgent + critical, 0)}</b>
      <small>{of}</small>
    </span>
  )
}
