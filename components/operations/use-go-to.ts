'use client'
import { useCallback } from 'react'
import { usePathname, useRouter } from 'next/navigation'
import type { FoundMark, Selection } from '@/components/map/types'
import type { FoundItem } from './search-query'
import { useOperationsView } from './view-state'
import { planSize, viewOf } from './view-of'
import { formatMark, formatSelection, formatView } from './view-text'

const selectionOf = (item: FoundItem): Selection =>
  item.kind === 'splice' || item.kind === 'circuit' ? { kind: item.kind, id: item.id } : null

const SHOWN_CIRCUITS = 3

/** What has no mark of its own on the map gets one; a structure with its circuits, since lines number their structures alike. */
const markOf = ({ kind, label, circuits, lon, lat }: FoundItem): FoundMark | null =>
  kind === 'structure' ? { lon, lat, label: structureMark(label, circuits) } : kind === 'place' ? { lon, lat, label } : null

/** Some are left out where many hang on one structure, never the number. */
export function structureMark(label: string, circuits: readonly string[]): string {
  const shown = circuits.slice(0, SHOWN_CIRCUITS).join(', ')
  const more = circuits.length > SHOWN_CIRCUITS ? ` and ${circuits.length - SHOWN_CIRCUITS} more` : ''
  return shown === '' ? `STR ${label}` : `STR ${label} · ${shown}${more}`
}

/** Takes the map to what was found: within Operations by its address, from elsewhere by going there. */
export function useGoTo() {
  const router = useRouter()
  const onOperations = usePathname() === '/operations'
  const { params, setParams } = useOperationsView()
  const goTo = useCallback(
    (item: FoundItem) => {
      const at = viewOf(item, planSize())
      const sel = selectionOf(item)
      const mark = markOf(item)
      if (onOperations) {
        void setParams({ at, sel, mark, q: item.label, view: null }, { history: 'push' })
        return
      }
      const query = new URLSearchParams({ at: formatView(at), q: item.label })
      if (mark) query.set('mark', formatMark(mark))
      if (sel) query.set('sel', formatSelection(sel))
      router.push(`/operations?${query}`)
    },
    [onOperations, router, setParams],
  )
  const keepQuery = useCallback(
    (q: string) => {
      if (onOperations) void setParams({ q: q || null, ...(q ? {} : { mark: null }) })
    },
    [onOperations, setParams],
  )
  return { query: onOperations ? (params.q ?? '') : '', goTo, keepQuery }
}
