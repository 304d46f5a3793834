import type { ClassCounts } from '@/lib/contract/contract'
import { evidenceSpan, staleText, type ConclusiveAge } from './evidence-age'
import { classedText } from './health-rows'
import css from './late.module.css'
import { Share } from './share'

/** The share that was looked at conclusively within the re-survey interval, then what of it is older than that, and from when all of it is; and how many splices have a class. */
export function Conclusive({ share, age, counts }: { share: number | null; age: ConclusiveAge; counts: ClassCounts }) {
  const stale = staleText(age)
  const span = evidenceSpan(age)
  const splices = classedText(counts)
  return (
    <span className={css.late}>
      <Share share={share} older={age.conclusive_stale_share ?? 0} />
      {stale && <small className={css.stale}>{stale}</small>}
      {span && <small>{span}</small>}
      {splices && <small>{splices}</small>}
    </span>
  )
}
