import { cx } from '@/components/ui/class-names'
import type { ListedSplice } from '@/lib/contract/contract'
import type { WatchState } from '@/lib/contract/watch'
import { nextText, riskText, stateText } from './watch-words'
import css from './splice-list.module.css'

interface Props { splice: ListedSplice; watch: WatchState; nowMs: number; timeZone: string }

/** Under a degraded or worse splice: what next, by when, who has it, called in and limit, and why it stands where it does. */
export function WatchLine({ splice, watch, nowMs, timeZone }: Props) {
  const next = nextText(watch, nowMs, timeZone)
  const why = riskText(watch, splice.last_reading_at, nowMs)
  return (
    <>
      <span className={css.watch}>
        <span className={cx(css.next, next.overdue && css.past)} title={next.text}>{next.text}</span>
        <span className={css.owner} title={watch.owner === null ? 'Nobody has taken it' : `Taken by ${watch.owner}`}>{watch.owner ?? 'not taken'}</span>
      </span>
      <span className={css.watch}>
        <span className={css.why} title={why}>{why}</span>
        <span className={css.state}>{stateText(watch)}</span>
      </span>
    </>
  )
}
