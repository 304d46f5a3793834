'use client'
import { CONDITION_CLASSES, type ConditionClass } from '@/lib/condition/types'
import type { ClassCounts } from '@/lib/contract/contract'
import type { SpliceFilter } from '@/lib/contract/filter'
import { formatNumber } from '@/lib/units/format'
import { CLASS_WORD, WORST_FIRST } from './class-colours'
import { ClassMark, PastMark } from './class-mark'
import css from './legend.module.css'

export interface LegendProps {
  filter: SpliceFilter
  onFilterChange(filter: SpliceFilter): void
  /** Of the whole network, class by class; null while that is not known. */
  counts: ClassCounts | null
  /** Of the sound ones, how many nobody measured again in time. */
  soundPast: number
  /** Urgent and critical readings that belong to no splice yet; the counts do not hold them. */
  unsettled: { urgent: number; critical: number }
  /** Urgent and critical that the filter leaves out. */
  hidden: { urgent: number; critical: number } | null
}

/** The filter with one class put in or taken out; every class shown is no filter at all. */
export function withClass(filter: SpliceFilter, cls: ConditionClass): SpliceFilter {
  const shown = filter.classes ?? [...CONDITION_CLASSES]
  const classes = CONDITION_CLASSES.filter((c) => (c === cls ? !shown.includes(c) : shown.includes(c)))
  return { ...filter, classes: classes.length === CONDITION_CLASSES.length ? undefined : classes }
}

/** The filter with this class alone; a second time every class again. */
export function onlyClass(filter: SpliceFilter, cls: ConditionClass): SpliceFilter {
  return { ...filter, classes: isOnly(filter, cls) ? undefined : [cls] }
}

const isOnly = ({ classes }: SpliceFilter, cls: ConditionClass): boolean => classes?.length === 1 && classes[0] === cls

/** '2 critical and 1 urgent hidden by the filter'; null where nothing of the kind is hidden. */
export function hiddenText(hidden: LegendProps['hidden']): string | null {
  const parts = (['critical', 'urgent'] as const).filter((c) => (hidden?.[c] ?? 0) > 0).map((c) => `${formatNumber(hidden?.[c] ?? 0, 0)} ${CLASS_WORD[c]}`)
  return parts.length === 0 ? null : `${parts.join(' and ')} hidden by the filter`
}

/** What the marks mean. The word that each line ends with says what a press does: the line shows or hides its class, 'only' leaves it alone. */
export function Legend({ filter, onFilterChange, counts, soundPast, unsettled, hidden }: LegendProps) {
  const shown = filter.classes ?? CONDITION_CLASSES
  const sentence = hiddenText(hidden)
  return (
    <div className={css.legend} role="group" aria-label="Condition classes on the map">
      {WORST_FIRST.map((cls) => (
        <div key={cls} className={css.row}>
          <button
            type="button" className={css.switch} aria-pressed={shown.includes(cls)}
            title={shown.includes(cls) ? `Hide ${CLASS_WORD[cls]}` : `Show ${CLASS_WORD[cls]}`}
            onClick={() => onFilterChange(withClass(filter, cls))}>
            <ClassMark class={cls} size={16} />
            <span>{CLASS_WORD[cls]}</span>
            <b>{counts ? formatNumber(counts[cls], 0) : '–'}</b>
            <i aria-hidden="true">{shown.includes(cls) ? 'shown' : 'hidden'}</i>
            {(cls === 'urgent' || cls === 'critical') && unsettled[cls] > 0 && <small> +{formatNumber(unsettled[cls], 0)} place not settled</small>}
            {cls === 'sound' && soundPast > 0 && <small> <PastMark class="sound" size={13} /> {formatNumber(soundPast, 0)} past re-measure</small>}
          </button>
          <button
            type="button" className={css.only} aria-pressed={isOnly(filter, cls)} aria-label={isOnly(filter, cls) ? 'All classes again' : `Only ${CLASS_WORD[cls]}`}
            onClick={() => onFilterChange(onlyClass(filter, cls))}>
            {isOnly(filter, cls) ? 'all' : 'only'}
          </button>
        </div>
      ))}
      {sentence && (
        <p className={css.hidden} role="status">
          {sentence}
          <button type="button" onClick={() => onFilterChange({})}>Show all</button>
        </p>
      )}
    </div>
  )
}
