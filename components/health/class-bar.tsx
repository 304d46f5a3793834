import { ClassMark } from '@/components/map/class-mark'
import { WORST_FIRST } from '@/components/map/class-colours'
import type { ConditionClass } from '@/lib/condition/types'
import type { ClassCounts } from '@/lib/contract/contract'
import { formatNumber } from '@/lib/units/format'
import css from './class-bar.module.css'

/** '2 critical, 5 urgent, 214 sound, of them 60 past re-measure'; classes without a splice are left out. */
export function countsSentence(counts: Partial<ClassCounts>, soundPast = 0): string {
  const parts = WORST_FIRST.filter((c) => (counts[c] ?? 0) > 0).map((c) => {
    const count = `${formatNumber(counts[c] ?? 0, 0)} ${c}`
    return c === 'sound' && soundPast > 0 ? `${count}, of them ${pastWords(soundPast)}` : count
  })
  return parts.length > 0 ? parts.join(', ') : 'no splices'
}

const pastWords = (soundPast: number): string => `${formatNumber(soundPast, 0)} past re-measure`

interface Props {
  counts: ClassCounts
  /** Of the sound ones, how many nobody measured again by the day on which they were to be: they were sound. */
  soundPast: number
}

interface Piece { key: string; class: ConditionClass; count: number; title: string; hatch?: string }

function pieces({ counts, soundPast }: Props): Piece[] {
  return WORST_FIRST.filter((c) => counts[c] > 0).flatMap((c): Piece[] => {
    const piece = (count: number, words: string, hatch?: string): Piece => ({ key: words, class: c, count, title: `${formatNumber(count, 0)} ${words}`, hatch })
    if (c === 'unknown') return [piece(counts[c], c, css.unknown)]
    if (c !== 'sound') return [piece(counts[c], c)]
    return [piece(counts[c] - soundPast, c), piece(soundPast, 'were sound, past re-measure', css.past)].filter(({ count }) => count > 0)
  })
}

/** Class shares as one stacked bar; what was sound and is past its re-measure is hatched. */
export function ClassBar({ counts, soundPast }: Props) {
  return (
    <div className={css.bar} role="img" aria-label={countsSentence(counts, soundPast)}>
      {pieces({ counts, soundPast }).map(({ key, class: of, count, title, hatch }) => (
        <span key={key} className={hatch} title={title} style={{ flexGrow: count, ...(hatch ? {} : { background: `var(--class-${of})` }) }} />
      ))}
    </div>
  )
}

/** The same in marks, figures and words. */
export function ClassWords({ counts, soundPast }: Props) {
  return (
    <ul className={css.words}>
      {WORST_FIRST.filter((c) => counts[c] > 0).map((c) => (
        <li key={c}>
          <ClassMark class={c} size={14} /><b>{formatNumber(counts[c], 0)}</b> {c}
          {c === 'sound' && soundPast > 0 && <span className={css.pastWords}>of them {pastWords(soundPast)}</span>}
        </li>
      ))}
      {WORST_FIRST.every((c) => counts[c] === 0) && <li className="muted">No splices yet</li>}
    </ul>
  )
}
