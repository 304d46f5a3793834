'use client'
import Link from 'next/link'
import { useMemo, useState } from 'react'
import { Legend } from '@/components/map/legend'
import { NetworkMap } from '@/components/map/network-map'
import type { Selection } from '@/components/map/types'
import { Button, IconButton } from '@/components/ui/button'
import { cx } from '@/components/ui/class-names'
import { keepCookie, PANELS_COOKIE } from '@/components/ui/cookies'
import { asSentences } from '@/components/ui/fetch-json'
import { useNetworkState } from '@/components/ui/network-state'
import { usePhaseLetters, useTheme, useTimeZone, useUnitSystem } from '@/components/ui/preferences'
import { EmptyState, ErrorState } from '@/components/ui/states'
import type { SpliceFilter } from '@/lib/contract/filter'
import { FilterBar } from './filter-bar'
import { ListPanel } from './list-panel'
import { countOf, type ListRow } from './list-rows'
import { formatPanels, type Panels } from './panels'
import { LIST_CEILING, useCircuits, useSettings, useSpliceList } from './queries'
import { SheetPanel } from './sheet-panel'
import { UrgentStrip } from './urgent-strip'
import { usePlan } from './use-plan'
import css from './screen.module.css'

/** The line on one sheet, alive: the list, the plan, and the sheet of what is selected. */
export function OperationsScreen({ panels: remembered }: { panels: Panels }) {
  const plan = usePlan()
  const { params, setParams, filter } = plan
  const state = useNetworkState()
  const version = state.data?.data_version
  const circuits = useCircuits(version)
  const list = useSpliceList(filter, version)
  const settings = useSettings()
  const theme = useTheme()
  const [panels, setPanels] = useState(remembered)
  const [system] = useUnitSystem()
  const timeZone = useTimeZone()
  const letters = usePhaseLetters()
  const [nowMs] = useState(() => Date.now())
  const splices = useMemo(() => list.data?.pages.flatMap((p) => p.items) ?? [], [list.data])
  const lineNames = useMemo(
    () => new Map(circuits.data?.flatMap((c) => (c.line_name ? [[c.id, c.line_name] as const] : []))),
    [circuits.data],
  )
  const first = list.data?.pages[0]

  const setPanel = (change: Partial<Panels>) => {
    const next = { ...panels, ...change }
    setPanels(next)
    keepCookie(PANELS_COOKIE, formatPanels(next))
  }
  const onFilter = (f: SpliceFilter) =>
    void setParams({ class: f.classes ?? null, circuit: f.circuitIds ?? null, voltage: f.voltagesKv ?? null, phase: f.phases ?? null })
  const selectCircuit = (id: number, byArrow = false) =>
    plan.selectBox({ kind: 'circuit', id }, circuits.data?.find((c) => c.id === id)?.bbox ?? null, byArrow)
  const onRow = (row: ListRow, byArrow: boolean) => {
    if (row.type === 'circuit') selectCircuit(row.circuitId, byArrow)
    else plan.selectPlace({ kind: 'splice', id: row.splice.id }, row.splice, byArrow)
    if (!byArrow && !panels.sheet) setPanel({ sheet: true })
  }
  const onMapSelect = (selection: Selection) => {
    plan.select(selection)
    if (selection && !panels.sheet) setPanel({ sheet: true })
  }

  if (state.isError && !state.data) {
    return (
      <div className={css.empty}>
        <ErrorState
          {...asSentences(state.error)}
          action={
            <Button variant="primary" onClick={() => void state.refetch()}>
              Try again
            </Button>
          }
        />
      </div>
    )
  }
  if (state.data && !state.data.network_bbox)
    return (
      <div className={css.empty}>
        <NoNetwork />
      </div>
    )
  const foot = listFoot(splices.length, first?.total, list.isFetching)
  return (
    <div className={css.screen} data-view={params.view ?? 'map'}>
      <UrgentStrip
        className={css.strip}
        count={state.data?.urgent_count}
        onOpen={(id, place) => (place ? plan.selectPlace({ kind: 'splice', id }, place, false) : plan.select({ kind: 'splice', id }))}
      />
      {panels.list ? (
        <aside className={css.list} aria-label="Splices">
          <div className={css.panelHead}>
            <h2>{state.data ? `${countOf(state.data.counts)} splices on ${circuits.data?.length ?? '…'} circuits` : 'Splices'}</h2>
            <IconButton
              className={css.panelToggle}
              icon="panelLeft"
              size="small"
              label="Hide the list"
              onClick={() => setPanel({ list: false })}
            />
          </div>
          <FilterBar
            filter={filter}
            onFilter={onFilter}
            totals={state.data?.counts}
            hidden={first?.hidden}
            circuits={circuits.data ?? []}
          />
          <ListPanel
            list={list}
            splices={splices}
            selection={params.sel}
            onSelect={onRow}
            foot={foot}
            words={{ system, timeZone, letters, nowMs, lineNames }}
            onShowAll={() => onFilter({})}
          />
        </aside>
      ) : (
        <div className={cx(css.rail, css.railLeft)}>
          <IconButton icon="panelLeft" size="small" label="Show the list" onClick={() => setPanel({ list: true })} />
        </div>
      )}
      <section id="plan" className={css.plan} aria-label="Map">
        {state.data && settings.data && (
          <NetworkMap
            className={css.map}
            view={params.at}
            onViewChange={plan.onViewChange}
            filter={filter}
            selection={params.sel}
            focus={plan.focus}
            onSelect={onMapSelect}
            dataVersion={state.data.data_version}
            networkBbox={state.data.network_bbox}
            basemap={settings.data.basemap}
            theme={theme}
          />
        )}
        {settings.isError && <ErrorState {...asSentences(settings.error)} />}
        <div className={css.legend}>
          <Legend filter={filter} onFilterChange={onFilter} counts={state.data?.counts ?? null} hidden={first?.hidden ?? null} />
        </div>
      </section>
      {params.sel &&
        (panels.sheet ? (
          <SheetPanel
            selection={params.sel}
            version={version}
            nowMs={nowMs}
            onClose={() => plan.select(null)}
            onHide={() => setPanel({ sheet: false })}
            onSelectSplice={(id) => plan.select({ kind: 'splice', id })}
            onSelectCircuit={selectCircuit}
          />
        ) : (
          <div className={cx(css.rail, css.railRight)}>
            <IconButton icon="panelRight" size="small" label="Show the sheet" onClick={() => setPanel({ sheet: true })} />
          </div>
        ))}
    </div>
  )
}

function listFoot(shown: number, total: number | undefined, loading: boolean): string {
  if (total === undefined) return loading ? 'Loading…' : ''
  if (shown < total && shown >= LIST_CEILING) return `The worst ${shown} of ${total}. Narrow the filter to list the rest.`
  return shown < total ? `${shown} of ${total}…` : `${total} in the filter, worst first`
}

function NoNetwork() {
  return (
    <EmptyState
      title="Import your lines first"
      action={
        <Button asChild variant="primary">
          <Link href="/intake">Import a file</Link>
        </Button>
      }>
      Operations shows every splice on the map with its condition, worst first. It needs your lines: a GeoJSON of the circuits, or the
      structures as CSV. Splices and readings then find their place on them.
    </EmptyState>
  )
}
