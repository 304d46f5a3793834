import { evidenceSpan, staleText, type ConclusiveAge } from './evidence-age'
import css from './late.module.css'
import { Share } from './share'

/** The share that was looked at conclusively, from when that evidence is, and how much of it is too old for its class. */
export function Conclusive({ share, age }: { share: number | null; age: ConclusiveAge }) {
  const stale = staleText(age)
  return (
    <span className={css.late}>
      <Share share={share} />
      <small>{evidenceSpan(age)}</small>
      {stale && <small className={css.stale}>{stale}</small>}
    </span>
  )
}
