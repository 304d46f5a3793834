'use client'
import { useMemo, type ReactNode } from 'react'
import { CallsLine } from '@/components/calls/calls-line'
import type { Selection } from '@/components/map/types'
import { IconButton } from '@/components/ui/button'
import { usePhaseLetters, useTimeZone, useUnitSystem } from '@/components/ui/preferences'
import type { CircuitSummary, ClassCounts } from '@/lib/contract/contract'
import type { SpliceFilter } from '@/lib/contract/filter'
import { formatNumber } from '@/lib/units/format'
import { ExportMenu } from './export/export-menu'
import { FilterBar } from './filter-bar'
import { ListPanel } from './list-panel'
import { countOf, type ListBy, type ListRow } from './list-rows'
import { LIST_CEILING, useCorridors, type useSpliceList } from './queries'
import type { Box } from './view-of'
import css from './screen.module.css'

export interface ListSideProps {
  list: ReturnType<typeof useSpliceList>
  counts: ClassCounts | undefined
  version: number | undefined
  by: ListBy
  onBy(by: ListBy): void
  circuits: CircuitSummary[]
  filter: SpliceFilter
  onFilter(filter: SpliceFilter): void
  /** Of the map on screen; null before it stands. */
  box: Box | null
  selection: Selection
  onSelect(row: ListRow, byArrow: boolean): void
  onHide(): void
  nowMs: number
  /** Something lies over it: nobody reaches it by key or by screen reader. */
  covered: boolean
  /** What changed since the last visit. */
  changed: ReactNode
}

/** The left panel: how much there is, the filter, the list. */
export function ListSide({ list, counts, version, by, onBy, circuits, filter, onFilter, box, selection, onSelect, onHide, nowMs, covered, changed }: ListSideProps) {
  const [system] = useUnitSystem()
  const timeZone = useTimeZone()
  const letters = usePhaseLetters()
  const splices = useMemo(() => list.data?.pages.flatMap((p) => p.items) ?? [], [list.data])
  const lineNames = useMemo(() => new Map(circuits.flatMap((c) => (c.line_name ? [[c.id, c.line_name] as const] : []))), [circuits])
  const corridors = useCorridors(version, by === 'corridor')
  const first = list.data?.pages[0]
  return (
    <aside className={css.list} aria-label="Splices" inert={covered}>
      <div className={css.panelHead}>
        <h2>{counts ? headText(countOf(counts), circuits.length, filter, first?.total) : 'Splices'}</h2>
        <span className={css.panelTools}>
          <ExportMenu filter={filter} list={first} box={box} circuits={circuits} version={version} />
          <IconButton className={css.panelToggle} icon="panelLeft" size="small" label="Hide the list" onClick={onHide} />
        </span>
      </div>
      <CallsLine version={version} />
      <FilterBar filter={filter} onFilter={onFilter} version={version} by={by} onBy={onBy} totals={first?.counts_of_any_class ?? counts} hidden={first?.hidden} circuits={circuits} box={box} changed={changed} />
      <ListPanel
        list={list}
        splices={splices}
        by={by}
        corridors={corridors}
        selection={selection}
        onSelect={onSelect}
        foot={listFoot(splices.length, first?.total)}
        words={{ system, timeZone, letters, nowMs, lineNames }}
        onShowAll={() => onFilter({})}
      />
    </aside>
  )
}

/** '2,397 splices on 12 circuits'; where a filter narrows them, '145 of 2,397 splices in the filter'. */
export function headText(all: number, circuits: number, filter: SpliceFilter, total: number | undefined): string {
  const narrowed = Object.values(filter).some((chosen) => chosen !== undefined)
  if (narrowed) return `${total === undefined ? '…' : formatNumber(total, 0)} of ${formatNumber(all, 0)} splices in the filter`
  return `${formatNumber(all, 0)} splices on ${circuits || '…'} ${circuits === 1 ? 'circuit' : 'circuits'}`
}

/** How much of the filter's splices the list holds. */
export function listFoot(shown: number, total: number | undefined): string {
  if (total === undefined) return 'Loading…'
  const all = formatNumber(total, 0)
  if (shown >= total) return `${all} in the filter, by risk`
  const held = formatNumber(shown, 0)
  return shown >= LIST_CEILING ? `The worst ${held} of ${all}. Narrow the filter to list the rest.` : `${all} in the filter, by risk`
}
