import { formatRatio, GREATEST_RATIO } from '@/lib/units/format'
import css from './k-axis.module.css'

/** Digits beyond its error tell nothing, near an edge neither: where the error stands beside it nobody takes the side of the edge for certain. */
const withError = (k: number, uK: number, edges: readonly number[]): string => (uK >= 0.005 ? k.toFixed(2) : formatRatio(k, edges))

/** '4.90 ± 0.07', and what is believed where that reads otherwise. */
export function Figure({ k, uK, other, edges }: { k: number; uK: number; other: { word: string; k: number }; edges: readonly number[] }) {
  if (k > GREATEST_RATIO) return <span className={css.figure}>{formatRatio(k)}</span>
  const [measured, believed] = [withError(k, uK, edges), withError(other.k, uK, edges)]
  return (
    <span className={css.figure}>
      {measured} <small>± {uK.toFixed(2)}{believed !== measured && `, ${other.word} ${believed}`}</small>
    </span>
  )
}
