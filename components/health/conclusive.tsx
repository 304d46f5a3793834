import { shortMethodText, staleText, type ConclusiveAge } from './evidence-age'
import { shareOf } from './health-rows'
import css from './late.module.css'
import { Share } from './share'

/** The share that was looked at conclusively within the re-survey interval, how, and what share was so longer ago. From when it is stands on the circuit's sheet. */
export function Conclusive({ current, spanPhases, age }: { current: number; spanPhases: number; age: ConclusiveAge }) {
  const method = shortMethodText(current, age, spanPhases)
  const stale = staleText(age)
  return (
    <span className={css.late}>
      <Share share={shareOf(current, spanPhases)} older={age.conclusive_stale_share ?? 0} />
      {method && <small>{method}</small>}
      {stale && <small className={css.stale}>{stale}</small>}
    </span>
  )
}
