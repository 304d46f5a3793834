'use client'
import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { Legend } from '@/components/map/legend'
import { NetworkMap } from '@/components/map/network-map'
import type { Selection } from '@/components/map/types'
import { IconButton } from '@/components/ui/button'
import { cx } from '@/components/ui/class-names'
import { keepCookie, PANELS_COOKIE } from '@/components/ui/cookies'
import { asSentences } from '@/components/ui/fetch-json'
import { useNetworkState } from '@/components/ui/network-state'
import { useTheme } from '@/components/ui/preferences'
import { ErrorState } from '@/components/ui/states'
import { PHONE, useMedia } from '@/components/ui/use-media'
import { useNow } from '@/components/ui/use-now'
import type { SpliceFilter } from '@/lib/contract/filter'
import { Away } from './away'
import { SinceLink } from './changes/since-link'
import { useVisit } from './changes/use-visit'
import { sinceOf, type Visit } from './changes/visit'
import { ListBones } from './list-bones'
import type { ListRow } from './list-rows'
import { ListSide } from './list-side'
import { NoNetwork, NoState } from './no-network'
import { formatPanels, type Panels } from './panels'
import { useCircuits, useSettings, useSpliceList } from './queries'
import { SheetPanel } from './sheet-panel'
import { StripSide } from './strip-side'
import { LayerPart } from './survey/layer-part'
import { NeverPanel } from './survey/never-panel'
import { SpanCard } from './survey/span-card'
import { useSurveyLayer } from './survey/use-survey-layer'
import { UrgentStrip } from './urgent-strip'
import { useEscape } from './use-escape'
import { filterParams } from './view-state'
import { usePlan } from './use-plan'
import { placeOfBox } from './use-selected-place'
import { planSize, viewOfBox } from './view-of'
import css from './screen.module.css'

/** The line on one sheet, alive: the list, the plan, and the sheet of what is selected. */
export function OperationsScreen({ panels: remembered, visit, askedAtMs }: { panels: Panels; visit: Visit; askedAtMs: number }) {
  const state = useNetworkState()
  const version = state.data?.data_version
  const plan = usePlan(version)
  const { params, setParams, filter } = plan
  const circuits = useCircuits(version)
  const survey = useSurveyLayer(plan, version)
  const list = useSpliceList(filter, version)
  const settings = useSettings()
  const theme = useTheme()
  const [panels, setPanels] = useState(remembered)
  const nowMs = useNow()
  const since = sinceOf(useVisit(visit), askedAtMs)
  const onPhone = useMedia(PHONE)
  const onStrip = params.view === 'strip'
  const neverSort = survey.on && !params.sel ? params['layer-list'] : null
  const covered = onPhone && (params.sel !== null || neverSort !== null) && panels.sheet && !onStrip
  const hidden = list.data?.pages[0]?.hidden
  const unsettledOf = (cls: 'urgent' | 'critical') => state.data?.unsettled.filter((u) => u.class === cls).length ?? 0
  const unsettled = { urgent: unsettledOf('urgent'), critical: unsettledOf('critical') }
  const router = useRouter()

  const setPanel = (change: Partial<Panels>) => {
    const next = { ...panels, ...change }
    setPanels(next)
    keepCookie(PANELS_COOKIE, formatPanels(next))
  }
  const showSheet = () => { if (!panels.sheet) setPanel({ sheet: true }) }
  const onFilter = (f: SpliceFilter) =>
    // A step for Back: what was shown before a class was left alone is one press away.
    void setParams(filterParams(f), { history: 'push' })
  const selectCircuit = (id: number, byArrow = false) =>
    plan.goTo({ kind: 'circuit', id }, placeOfBox(circuits.data?.find((c) => c.id === id)?.bbox), byArrow)
  const selectSplice = (id: number, place: { lon: number; lat: number } | null, byArrow = false) =>
    plan.goTo({ kind: 'splice', id }, place, byArrow)
  const onRow = (row: ListRow, byArrow: boolean) => {
    if (row.type === 'circuit') selectCircuit(row.circuitId, byArrow)
    else if (row.type === 'corridor') plan.goTo({ kind: 'circuit', id: row.circuitId }, placeOfBox(row.corridor.bbox), byArrow)
    else if (row.type === 'splice') selectSplice(row.splice.id, row.splice, byArrow)
    if (!byArrow) showSheet()
  }
  const clearMark = params.mark ? () => void setParams({ mark: null, q: null }) : null
  useEscape(clearMark)
  const showOnMap = () => {
    plan.showSelected?.()
    void setParams({ view: null })
    if (onPhone) setPanel({ sheet: false })
  }
  const onMapSelect = (selection: Selection) => {
    plan.select(selection)
    if (selection) showSheet()
  }

  if (state.isError && !state.data) return <NoState error={state.error} onRetry={() => void state.refetch()} />
  if (state.data && !state.data.network_bbox) return <NoNetwork />
  return (
    <div
      className={css.screen}
      data-view={params.view ?? 'map'}
      data-list={panels.list ? 'open' : 'closed'}
      data-sheet={panels.sheet ? 'open' : 'closed'}
      data-strip={panels.strip ? 'open' : 'closed'}>
      <h1 className="visually-hidden">Operations</h1>
      <UrgentStrip
        className={css.strip}
        count={state.data?.urgent_count}
        brief={covered}
        onOpen={(id, place) => { selectSplice(id, place); showSheet() }}
      />
      <ListSide
        list={list}
        counts={state.data?.counts}
        by={params.by}
        onBy={(by) => void setParams({ by })}
        version={version}
        circuits={circuits.data ?? []}
        filter={filter}
        onFilter={onFilter}
        box={plan.box}
        selection={params.sel}
        onSelect={onRow}
        onHide={() => setPanel({ list: false })}
        nowMs={nowMs}
        covered={covered}
        changed={<SinceLink since={since} circuitIds={filter.circuitIds} version={version} />}
      />
      <div className={cx(css.rail, css.railLeft)}>
        <IconButton icon="panelLeft" size="small" label="Show the list" onClick={() => setPanel({ list: true })} />
      </div>
      <section id="plan" className={css.plan} aria-label="Map" aria-describedby="plan-twin" inert={covered || (onPhone && onStrip)}>
        <p id="plan-twin" className="visually-hidden">
          The list of splices, worst first, holds the same in words.
        </p>
        {!(state.data && settings.data && plan.placed) ? <ListBones className={css.planBones} /> : (
          <NetworkMap
            className={css.map}
            view={plan.view}
            onViewChange={plan.onViewChange}
            filter={filter}
            selection={params.sel}
            focus={plan.focus}
            onSelect={onMapSelect}
            dataVersion={state.data.data_version}
            networkBbox={state.data.network_bbox}
            basemap={settings.data.basemap}
            theme={theme}
            mark={params.mark}
            unsettled={state.data.unsettled}
            onUnsettled={(id) => router.push(`/intake/review?reading=${id}`)}
            survey={survey.onMap}
          />
        )}
        {params.sel && (
          <Away
            name={plan.selectedName}
            onShow={plan.showSelected}
            onSheet={onPhone && !panels.sheet ? showSheet : null}
            onClear={() => plan.select(null)}
          />
        )}
        {settings.isError && <ErrorState {...asSentences(settings.error)} />}
        {survey.on && params['layer-span'] !== null && (
          <SpanCard id={params['layer-span']} version={version} onCircuit={(id) => { selectCircuit(id); showSheet() }} onClose={() => void setParams({ 'layer-span': null })} />
        )}
        <div className={css.legend} data-over-map>
          <LayerPart
            layer={survey} plan={plan} version={version} nowMs={nowMs} onList={() => { if (params.sel) plan.select(null); showSheet() }}
            condition={(
              <Legend
                filter={filter} onFilterChange={onFilter} counts={list.data?.pages[0]?.counts_of_any_class ?? state.data?.counts ?? null}
                soundPast={list.data?.pages[0]?.sound_past_re_measure ?? state.data?.sound_past_re_measure ?? 0} unsettled={unsettled} hidden={hidden ?? null}
              />
            )}
          />
        </div>
      </section>
      <section className={css.line} aria-label="Strip" inert={covered || (onPhone && !onStrip)}>
        <StripSide
          plan={plan} version={version} circuits={circuits.data ?? []} onSelectCircuit={selectCircuit} onSelectSplice={selectSplice}
          onClearFilter={() => onFilter({})} showSheet={showSheet} onSheet={params.sel ? () => { showSheet(); void setParams({ view: null }) } : null}
          folded={!panels.strip} onFold={(folded) => setPanel({ strip: !folded })} nowMs={nowMs} phone={onPhone}
        />
      </section>
      {neverSort && (
        <NeverPanel
          filter={survey.filter} sort={neverSort} onSort={(by) => void setParams({ 'layer-list': by }, { history: 'replace' })} version={version} nowMs={nowMs}
          onClose={() => void setParams({ 'layer-list': null })} pressing={{ critical: state.data?.counts.critical ?? 0, urgent: state.data?.counts.urgent ?? 0 }} paper={settings.data}
          onStretch={(stretch) => void setParams({ at: viewOfBox(stretch.bbox, planSize()), strip: null, view: null, 'layer-span': null, ...(onPhone && { 'layer-list': null }) }, { history: 'push' })}
        />
      )}
      {params.sel && (
        <>
          <SheetPanel
            selection={params.sel}
            version={version}
            nowMs={nowMs}
            onClose={() => plan.select(null)}
            onHide={() => setPanel({ sheet: false })}
            onShowOnMap={plan.showSelected || onPhone ? showOnMap : null}
            onSelectSplice={(id) => selectSplice(id, null)}
            onSelectCircuit={selectCircuit}
            paper={settings.data}
          />
          <div className={cx(css.rail, css.railRight)}>
            <IconButton icon="panelRight" size="small" label="Show the sheet" onClick={() => setPanel({ sheet: true })} />
          </div>
        </>
      )}
    </div>
  )
}
