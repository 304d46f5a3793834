import { evidenceSpan, staleText, type ConclusiveAge } from './evidence-age'
import css from './late.module.css'
import { Share } from './share'

/** The share that was looked at conclusively within the re-survey interval, then what of it is older than that, and from when all of it is. */
export function Conclusive({ share, age }: { share: number | null; age: ConclusiveAge }) {
  const stale = staleText(age)
  const span = evidenceSpan(age)
  return (
    <span className={css.late}>
      <Share share={share} older={age.conclusive_stale_share ?? 0} />
      {stale && <small className={css.stale}>{stale}</small>}
      {span && <small>{span}</small>}
    </span>
  )
}
