import { formatRatio, GREATEST_RATIO } from '@/lib/units/format'
import css from './k-axis.module.css'

/** '4.90 ± 0.07', and what is believed where that reads otherwise. */
export function Figure({ k, uK, other, edges }: { k: number; uK: number; other: { word: string; k: number }; edges: readonly number[] }) {
  if (k > GREATEST_RATIO) return <span className={css.figure}>{formatRatio(k)}</span>
  const [measured, believed] = [formatRatio(k, edges), formatRatio(other.k, edges)]
  return (
    <span className={css.figure}>
      {measured} <small>± {uK.toFixed(2)}{believed !== measured && `, ${other.word} ${believed}`}</small>
    </span>
  )
}
