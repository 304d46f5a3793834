'use client'
import { Button, IconButton } from '@/components/ui/button'
import { DataTable, num, SortHead } from '@/components/ui/data-table'
import { asSentences } from '@/components/ui/fetch-json'
import { usePhaseLetters, useUnitSystem } from '@/components/ui/preferences'
import { PrintFoot, PrintHead, type Pressing } from '@/components/ui/print'
import { EmptyState, ErrorState, Quantity, Skeleton } from '@/components/ui/states'
import type { SettingsJson } from '@/lib/contract/settings'
import type { NeverStretch, STRETCH_SORTS, SurveyFilter } from '@/lib/contract/survey-layer'
import { formatLength, formatLineDistance, formatNumber, lengthMeasure } from '@/lib/units/format'
import screen from '../screen.module.css'
import { useNever } from './queries'
import { stretchName } from './words'
import css from './survey.module.css'

type Sort = (typeof STRETCH_SORTS)[number]

export interface NeverPanelProps {
  filter: SurveyFilter
  sort: Sort
  onSort(sort: Sort): void
  version: number | undefined
  onStretch(stretch: NeverStretch): void
  onClose(): void
  nowMs: number
  pressing: Pressing
  paper: Pick<SettingsJson, 'information_mark' | 'utility_name'> | undefined
}

/** The map's hollow lines as a table: every stretch that nobody ever surveyed. */
export function NeverPanel({ filter, sort, onSort, version, onStretch, onClose, nowMs, pressing, paper }: NeverPanelProps) {
  const letters = usePhaseLetters()
  const phase = filter.phases?.[0]
  const what = phase ? `phase ${letters[phase] ?? phase}` : 'all phases'
  return (
    <aside className={screen.sheet} aria-label="Never surveyed" onKeyDown={(e) => { if (e.key === 'Escape') onClose() }}>
      <div className={screen.panelHead}>
        <h2>Never surveyed, {what}</h2>
        <IconButton icon="close" size="small" label="Close the list of stretches never surveyed" onClick={onClose} />
      </div>
      <div className={screen.sheetBody} tabIndex={0} role="region" aria-label="Stretches never surveyed">
        <Stretches {...{ filter, sort, onSort, version, onStretch, what, nowMs, pressing, paper }} />
      </div>
    </aside>
  )
}

function Stretches({ filter, sort, onSort, version, onStretch, what, nowMs, pressing, paper }: Omit<NeverPanelProps, 'onClose'> & { what: string }) {
  const [system] = useUnitSystem()
  const list = useNever(filter, sort, version)
  const first = list.data?.pages[0]
  if (list.isError && !first) return <ErrorState small {...asSentences(list.error)} action={<Button size="small" onClick={() => void list.refetch()}>Try again</Button>} />
  if (!first) return <div className={css.bones} aria-busy="true">{[0, 1, 2, 3, 4, 5].map((i) => <Skeleton key={i} height={14} />)}</div>
  if (first.total === 0) return <EmptyState small title="Nothing was never surveyed">Somebody looked at every span of these circuits, {what}, at least once. Whether it proves anything is told span by span.</EmptyState>
  const rows = list.data?.pages.flatMap((page) => page.items) ?? []
  const head = (by: Sort, label: string, numeric = false) =>
    <SortHead label={label} numeric={numeric} direction={sort === by ? (by === 'circuit' ? 'ascending' : 'descending') : undefined} onSort={() => onSort(by)} />
  return (
    <>
      <PrintHead mark={paper?.information_mark ?? ''} />
      <h2 className={css.onPaper}>Never surveyed, {what}</h2>
      <p className={css.totals} role="status">
        {formatNumber(first.total, 0)} {first.total === 1 ? 'stretch' : 'stretches'}, {formatLength(first.length_m, system)}
        {first.splices > 0 ? `, with ${formatNumber(first.splices, 0)} known ${first.splices === 1 ? 'splice' : 'splices'}` : ', no known splice'}. Not surveyed is not sound.
      </p>
      <DataTable caption={`Stretches never surveyed, ${what}`} className={css.stretches} inset>
        <thead><tr>{head('circuit', 'Circuit')}<th scope="col">Stretch</th>{head('length', 'Length', true)}<th scope="col" className={num}>Spans</th>{head('splices', 'Splices', true)}</tr></thead>
        <tbody>
          {rows.map((s) => (
            <tr key={`${s.circuit_id} ${s.section} ${s.start_m}`}>
              <td>{s.circuit}{s.section === 'main' ? '' : <small>{s.section}</small>}</td>
              <th scope="row">
                <Button size="small" variant="quiet" onClick={() => onStretch(s)} aria-label={`${stretchName(s.from, s.to)} of ${s.circuit}: show on the map`}>{stretchName(s.from, s.to)}</Button>
                <small>from {formatLineDistance(s.start_m, system)}</small>
              </th>
              <td className={num}><Quantity {...lengthMeasure(s.length_m, system)} /></td>
              <td className={num}>{formatNumber(s.spans, 0)}</td>
              <td className={num}>{formatNumber(s.splices, 0)}</td>
            </tr>
          ))}
        </tbody>
      </DataTable>
      {rows.length < first.total && (
        <p className={css.more}>
          {formatNumber(rows.length, 0)} of {formatNumber(first.total, 0)} listed{' '}
          <Button size="small" disabled={list.isFetchingNextPage} onClick={() => void list.fetchNextPage()}>List more</Button>
        </p>
      )}
      <PrintFoot utility={paper?.utility_name ?? ''} askedAtMs={nowMs} pressing={pressing} />
    </>
  )
}
