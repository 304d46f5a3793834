'use client'
import type { ReactNode } from 'react'
import Link from 'next/link'
import { WORST_FIRST } from '@/components/map/class-colours'
import { ClassMark } from '@/components/map/class-mark'
import { Button } from '@/components/ui/button'
import { Chooser } from '@/components/ui/chooser'
import { usePhaseLetters } from '@/components/ui/preferences'
import { CONDITION_CLASSES, type ConditionClass } from '@/lib/condition/types'
import type { CircuitSummary, ClassCounts } from '@/lib/contract/contract'
import type { SpliceFilter } from '@/lib/contract/filter'
import { formatNumber } from '@/lib/units/format'
import { hiddenSentence } from './list-rows'
import type { Box } from './view-of'
import css from './filter-bar.module.css'

export interface FilterBarProps {
  filter: SpliceFilter
  onFilter(filter: SpliceFilter): void
  /** Of the whole network, class by class. */
  totals: ClassCounts | undefined
  hidden: { urgent: number; critical: number } | undefined
  circuits: CircuitSummary[]
  /** Of the map on screen; null before it stands. */
  box: Box | null
  /** What changed since the last visit. */
  changed: ReactNode
}

/**
 * Narrows the list and the map alike, and says what of the urgent and critical it hides. The classes stand in the map's legend;
 * on a phone, where the list hides the map, they stand here.
 */
export function FilterBar({ filter, onFilter, totals, hidden, circuits, box, changed }: FilterBarProps) {
  const letters = usePhaseLetters()
  const voltages = [...new Set(circuits.flatMap((c) => (c.voltage_kv === null ? [] : [c.voltage_kv])))].sort((a, b) => b - a)
  const shown = filter.classes ?? [...CONDITION_CLASSES]
  const toggle = (c: ConditionClass) => {
    const next = CONDITION_CLASSES.filter((x) => (x === c ? !shown.includes(c) : shown.includes(x)))
    onFilter({ ...filter, classes: next.length === CONDITION_CLASSES.length ? undefined : next })
  }
  const sentence = hidden && hiddenSentence(hidden)
  const narrowed = Boolean(filter.classes ?? filter.circuitIds ?? filter.voltagesKv ?? filter.phases)
  return (
    <div className={css.bar}>
      <div className={css.classes} role="group" aria-label="Classes shown">
        {WORST_FIRST.map((c) => (
          <button key={c} type="button" className={css.class} aria-pressed={shown.includes(c)} onClick={() => toggle(c)}>
            <ClassMark class={c} size={14} />
            {c}
            <b>{totals ? formatNumber(totals[c], 0) : '–'}</b>
          </button>
        ))}
      </div>
      <div className={css.choosers}>
        <Chooser
          name="Circuit"
          chosen={filter.circuitIds}
          options={circuits.map((c) => ({ value: c.id, label: c.line_name ? `${c.name}, ${c.line_name}` : c.name }))}
          onChoose={(circuitIds) => onFilter({ ...filter, circuitIds })}
          short={(id) => circuits.find((c) => c.id === id)?.name ?? String(id)}
        />
        <Chooser
          name="Voltage"
          chosen={filter.voltagesKv}
          options={voltages.map((v) => ({ value: v, label: `${v} kV` }))}
          onChoose={(voltagesKv) => onFilter({ ...filter, voltagesKv })}
          short={(v) => `${v} kV`}
        />
        <Chooser
          name="Phase"
          chosen={filter.phases}
          onChoose={(phases) => onFilter({ ...filter, phases })}
          short={(p) => letters[p] ?? p}
          options={[
            ...['A', 'B', 'C'].map((p) => ({ value: p, label: `Phase ${letters[p] ?? p}` })),
            { value: 'unknown', label: 'Not confirmed' },
          ]}
        />
      </div>
      {changed}
      {(filter.circuitIds ?? box) && (
        <p className={css.foot}>
          <Link href={loadingHref(filter, box)}>{filter.circuitIds ? 'Loading of these circuits' : 'Loading of what is on the map'}</Link>
        </p>
      )}
      {narrowed && (
        <p className={css.foot}>
          <span role="status" className={sentence ? css.hidden : undefined}>
            {sentence ?? 'The filter hides nothing urgent or critical'}
          </span>
          <Button size="small" variant="quiet" onClick={() => onFilter({})}>
            Show all
          </Button>
        </p>
      )}
    </div>
  )
}

/** How hot their splices would be: of the circuits chosen, else of those that the map shows. */
const loadingHref = ({ circuitIds }: SpliceFilter, box: Box | null): string =>
  `/loading?${circuitIds ? `circuit=${circuitIds.join(',')}` : `bbox=${box?.map((degrees) => degrees.toFixed(4)).join(',')}`}`
