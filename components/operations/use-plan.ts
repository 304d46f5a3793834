'use client'
import { useCallback, useMemo, useState } from 'react'
import type { MapView, NetworkMapProps, Selection } from '@/components/map/types'
import { useAfterLayout } from './use-after-layout'
import { useOperationsView } from './view-state'
import { CLOSE_ZOOM, planSize, viewOfBox } from './view-of'
import { formatView } from './view-text'

/** Nearer than this the map shows marks one by one; an arrow step need not zoom. */
const SINGLE_ZOOM = 11

/**
 * The map's place in the address. The map reports where it is; a place in the address that it has not reported came from
 * elsewhere (the list, search, a link, Back), and the map flies there.
 */
export function usePlan() {
  const { params, setParams, filter } = useOperationsView()
  const at = params.at
  const atText = at ? formatView(at) : null
  const [reported, setReported] = useState(atText)
  const drawn = useAfterLayout(atText)
  const focus = useMemo<NetworkMapProps['focus']>(
    () =>
      at && atText && atText === drawn && atText !== reported
        ? { lon: at.lon, lat: at.lat, zoom: at.zoom, key: `${reported} > ${atText}` }
        : null,
    [at, atText, drawn, reported],
  )

  const onViewChange = useCallback(
    (view: MapView) => {
      // The map also speaks when only its size has changed; that must not call off a flight that is about to begin.
      const text = formatView(view)
      if (text === reported) return
      setReported(text)
      void setParams({ at: view })
    },
    [reported, setParams],
  )

  const select = useCallback((sel: Selection) => void setParams({ sel }), [setParams])

  const selectPlace = useCallback((sel: Selection, place: { lon: number; lat: number }, byArrow: boolean) => {
    const zoom = at && at.zoom >= SINGLE_ZOOM ? at.zoom : byArrow ? SINGLE_ZOOM + 1 : CLOSE_ZOOM - 1
    void setParams({ sel, at: { lon: place.lon, lat: place.lat, zoom } }, { history: byArrow ? 'replace' : 'push' })
  }, [at, setParams])

  const selectBox = useCallback((sel: Selection, bbox: readonly [number, number, number, number] | null, byArrow: boolean) => {
    void setParams({ sel, ...(bbox ? { at: viewOfBox(bbox, planSize()) } : {}) }, { history: byArrow ? 'replace' : 'push' })
  }, [setParams])

  return { params, setParams, filter, focus, onViewChange, select, selectPlace, selectBox }
}
