import { ClassMark } from '@/components/map/class-mark'
import { WORST_FIRST } from '@/components/map/class-colours'
import type { ClassCounts } from '@/lib/contract/contract'
import { formatNumber } from '@/lib/units/format'
import css from './class-bar.module.css'

/** '2 critical, 5 urgent, 214 sound'; classes without a splice are left out. */
export function countsSentence(counts: Partial<ClassCounts>): string {
  const parts = WORST_FIRST.filter((c) => (counts[c] ?? 0) > 0).map((c) => `${formatNumber(counts[c] ?? 0, 0)} ${c}`)
  return parts.length > 0 ? parts.join(', ') : 'no splices'
}

/** Class shares as one stacked bar. */
export function ClassBar({ counts }: { counts: ClassCounts }) {
  return (
    <div className={css.bar} role="img" aria-label={countsSentence(counts)}>
      {WORST_FIRST.filter((c) => counts[c] > 0).map((c) => (
        <span key={c} className={c === 'unknown' ? css.unknown : undefined} title={`${formatNumber(counts[c], 0)} ${c}`}
          style={{ flexGrow: counts[c], ...(c === 'unknown' ? {} : { background: `var(--class-${c})` }) }} />
      ))}
    </div>
  )
}

/** The same in marks, figures and words. */
export function ClassWords({ counts }: { counts: ClassCounts }) {
  return (
    <ul className={css.words}>
      {WORST_FIRST.filter((c) => counts[c] > 0).map((c) => <li key={c}><ClassMark class={c} size={14} /><b>{formatNumber(counts[c], 0)}</b> {c}</li>)}
      {WORST_FIRST.every((c) => counts[c] === 0) && <li className="muted">No splices yet</li>}
    </ul>
  )
}
