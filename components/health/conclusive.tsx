import type { ClassCounts } from '@/lib/contract/contract'
import { evidenceSpan, methodText, staleText, type ConclusiveAge } from './evidence-age'
import { classedText, shareOf } from './health-rows'
import css from './late.module.css'
import { Share } from './share'

/** The share that was looked at conclusively within the re-survey interval, then what of it is older than that, and from when all of it is; and how many splices have a class. */
export function Conclusive({ current, spanPhases, age, counts }: { current: number; spanPhases: number; age: ConclusiveAge; counts: ClassCounts }) {
  const method = methodText(current, age, spanPhases)
  const stale = staleText(age)
  const span = evidenceSpan(age)
  const splices = classedText(counts)
  return (
    <span className={css.late}>
      <Share share={shareOf(current, spanPhases)} older={age.conclusive_stale_share ?? 0} />
      {method && <small>{method}</small>}
      {stale && <small className={css.stale}>{stale}</small>}
      {span && <small>{span}</small>}
      {splices && <small>{splices}</small>}
    </span>
  )
}
