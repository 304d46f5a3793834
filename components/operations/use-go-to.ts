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

/** What has no mark of its own on the map gets one. */
const markOf = ({ kind, label, lon, lat }: FoundItem): FoundMark | null =>
  kind === 'structure' ? { lon, lat, label: `STR ${label}` } : kind === 'place' ? { lon, lat, label } : null

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
