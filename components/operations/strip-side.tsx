'use client'
import { useEffect, useMemo, useRef, useState } from 'react'
import { keepPreviousData, useQuery } from '@tanstack/react-query'
import type { Stretch } from '@/components/strip/axis'
import { modelOf } from '@/components/strip/model'
import { boxOfStretch, stretchInBox } from '@/components/strip/place'
import { StripPanel } from '@/components/strip/strip-panel'
import { fetchJson } from '@/components/ui/fetch-json'
import { usePhaseLetters, useTimeZone, useUnitSystem } from '@/components/ui/preferences'
import type { CircuitSummary } from '@/lib/contract/contract'
import { filterToQuery, type SpliceFilter } from '@/lib/contract/filter'
import { circuitStrip } from '@/lib/contract/strip'
import { useSplice } from './queries'
import type { usePlan } from './use-plan'
import { isInView, planSize, viewOfBox } from './view-of'

/** The map follows when the strip rests: a flight for every turn of a wheel would never arrive. */
const REST_MS = 220

const useStrip = (id: number | null, filter: SpliceFilter, version: number | undefined) =>
  useQuery({
    queryKey: ['strip', id, filterToQuery(filter), version],
    queryFn: ({ signal }) => fetchJson(`/api/v1/circuits/${id}/strip?${filterToQuery(filter)}`, circuitStrip, { signal }),
    enabled: id !== null && version !== undefined,
    placeholderData: keepPreviousData,
  })

export interface StripSideProps {
  plan: ReturnType<typeof usePlan>
  version: number | undefined
  circuits: readonly CircuitSummary[]
  onSelectCircuit(id: number): void
  onSelectSplice(id: number, place: { lon: number; lat: number }): void
  onClearFilter(): void
  showSheet(): void
  onSheet: (() => void) | null
  folded: boolean
  onFold(folded: boolean): void
  nowMs: number
  phone: boolean
}

/** The circuit that the strip straightens: of what is selected, else the only one of the filter, else the one before. */
function useStripCircuit({ params, filter }: StripSideProps['plan'], version: number | undefined): number | null {
  const { sel } = params
  const splice = useSplice(sel?.kind === 'splice' ? sel.id : null, version)
  const only = filter.circuitIds?.length === 1 ? filter.circuitIds[0] : undefined
  const asked = sel?.kind === 'circuit' ? sel.id : sel ? splice.data?.circuit_id : (only ?? params.strip?.circuitId)
  const [kept, setKept] = useState<number | null>(asked ?? null)
  if (asked !== undefined && asked !== kept) setKept(asked)
  return asked ?? kept
}

/** The strip and the map show one stretch: who is moved takes the other along. The strip's own stretch stands in the address; without one it shows what the map does. */
export function StripSide({ plan, version, circuits, onSelectCircuit, onSelectSplice, onClearFilter, showSheet, onSheet, folded, onFold, nowMs, phone }: StripSideProps) {
  const { params, setParams, filter, box } = plan
  const circuitId = useStripCircuit(plan, version)
  const answer = useStrip(folded && !phone ? null : circuitId, filter, version)
  const strip = answer.data?.circuit_id === circuitId ? answer.data : undefined
  const [day] = useState(nowMs)
  const model = useMemo(() => (strip ? modelOf(strip, day) : null), [strip, day])
  const inMap = useMemo(() => (model && box ? stretchInBox(model.courses, box) : null), [model, box])
  const [live, setLive] = useState<(Stretch & { circuitId: number }) | null>(null)
  const rest = useRef<ReturnType<typeof setTimeout>>(undefined)
  useEffect(() => () => clearTimeout(rest.current), [circuitId])
  const own = params.strip?.circuitId === circuitId ? params.strip : null
  const [system] = useUnitSystem()
  const words = { system, timeZone: useTimeZone(), letters: usePhaseLetters(), nowMs }

  const onStretch = (stretch: Stretch) => {
    if (!model || circuitId === null) return
    setLive({ ...stretch, circuitId })
    clearTimeout(rest.current)
    rest.current = setTimeout(() => {
      setLive(null)
      const bbox = boxOfStretch(model.courses, stretch)
      void setParams({ strip: { circuitId, fromM: Math.round(stretch.fromM), toM: Math.round(stretch.toM) }, ...(bbox && { at: viewOfBox(bbox, planSize()) }) })
    }, REST_MS)
  }
  return (
    <StripPanel
      strip={strip} model={model} error={answer.error} onRetry={() => void answer.refetch()} circuitId={circuitId} circuits={circuits} onCircuit={onSelectCircuit}
      stretch={(live?.circuitId === circuitId ? live : null) ?? own ?? inMap} onStretch={onStretch} selectedId={params.sel?.kind === 'splice' ? params.sel.id : null}
      onClearFilter={onClearFilter}
      onPick={(splice) => {
        // What the map shows already it does not move for.
        if (box && isInView(splice, box)) plan.select({ kind: 'splice', id: splice.id })
        else onSelectSplice(splice.id, splice)
        if (!phone) showSheet()
      }}
      onSheet={onSheet} folded={folded && !phone} onFold={onFold} words={words} phone={phone}
    />
  )
}
