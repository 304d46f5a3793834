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
import { AGES, CONFIDENCES, EVIDENCE, type SpliceFilter } from '@/lib/contract/filter'
import { formatNumber } from '@/lib/units/format'
import { Segmented } from '@/components/ui/tabs'
import { hiddenSentence, type ListBy } from './list-rows'
import { useSurveys } from './queries'
import { SavedViews } from './saved-views'
import type { Box } from './view-of'
import css from './filter-bar.module.css'

export interface FilterBarProps {
  filter: SpliceFilter
  onFilter(filter: SpliceFilter): void
  by: ListBy
  onBy(by: ListBy): void
  version: number | undefined
  /** Of what the filter lets through, whatever the classes chosen. */
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
export function FilterBar({ filter, onFilter, by, onBy, version, totals, hidden, circuits, box, changed }: FilterBarProps) {
  const letters = usePhaseLetters()
  const voltages = [...new Set(circuits.flatMap((c) => (c.voltage_kv === null ? [] : [c.voltage_kv])))].sort((a, b) => b - a)
  const shown = filter.classes ?? [...CONDITION_CLASSES]
  const toggle = (c: ConditionClass) => {
    const next = CONDITION_CLASSES.filter((x) => (x === c ? !shown.includes(c) : shown.includes(x)))
    onFilter({ ...filter, classes: next.length === CONDITION_CLASSES.length ? undefined : next })
  }
  const sentence = hidden && hiddenSentence(hidden)
  const surveys = useSurveys(version).data ?? []
  const narrowed = Object.values(filter).some((chosen) => chosen !== undefined)
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
        <Chooser name="Age" chosen={filter.ages} options={optionsOf(AGES, AGE_WORDS)} onChoose={(ages) => onFilter({ ...filter, ages })} short={(age) => AGE_WORDS[age]} />
        <Chooser
          name="Survey"
          chosen={filter.surveyIds}
          options={surveys.map((survey) => ({ value: survey.id, label: survey.name }))}
          onChoose={(surveyIds) => onFilter({ ...filter, surveyIds })}
          short={(id) => surveys.find((survey) => survey.id === id)?.name ?? String(id)}
        />
        <Chooser
          name="Evidence" chosen={filter.evidence} options={optionsOf(EVIDENCE, EVIDENCE_WORDS)} onChoose={(evidence) => onFilter({ ...filter, evidence })}
          short={(one) => EVIDENCE_WORDS[one]}
        />
        <Chooser
          name="Confidence" chosen={filter.confidences} options={optionsOf(CONFIDENCES, CONFIDENCE_WORDS)} onChoose={(confidences) => onFilter({ ...filter, confidences })}
          short={(one) => CONFIDENCE_WORDS[one]}
        />
        <SavedViews filter={filter} />
      </div>
      {changed}
      <div className={css.foot}>
        <Segmented<ListBy> label="List" size="small" value={by} onValueChange={onBy} options={BY} />
        {(filter.circuitIds ?? box) && (
          <Link href={loadingHref(filter, box)}>{filter.circuitIds ? 'Loading of circuits' : 'Loading of this view'}</Link>
        )}
      </div>
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

const BY: { value: ListBy; label: string; name: string }[] = [
  { value: 'risk', label: 'Risk', name: 'By risk' }, { value: 'circuit', label: 'Circuit', name: 'By circuit' }, { value: 'corridor', label: 'Corridor', name: 'By corridor' },
]
const AGE_WORDS = { 'under-1': 'Under a year', '1-3': '1 to 3 years', '3-6': '3 to 6 years', 'over-6': 'Over 6 years', 'never': 'Never read' } as const
const EVIDENCE_WORDS = { resistance: 'Resistance', infrared: 'Infrared only', none: 'None', conflict: 'In conflict' } as const
const CONFIDENCE_WORDS = { high: 'High', medium: 'Medium', low: 'Low' } as const

const optionsOf = <V extends string>(values: readonly V[], words: Readonly<Record<V, string>>) => values.map((value) => ({ value, label: words[value] }))

/** How hot their splices would be: of the circuits chosen, else of those that the map shows. */
const loadingHref = ({ circuitIds }: SpliceFilter, box: Box | null): string =>
  `/loading?${circuitIds ? `circuit=${circuitIds.join(',')}` : `bbox=${box?.map((degrees) => degrees.toFixed(4)).join(',')}`}`
