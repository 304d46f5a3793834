'use client'
import { useCallback, useMemo, useState } from 'react'
import type { MapView, NetworkMapProps, Selection } from '@/components/map/types'
import { useSelectedPlace, type SelectedPlace } from './use-selected-place'
import { useOperationsView } from './view-state'
import { CLOSE_ZOOM, isInView, planSize, viewOfBox, type Box } from './view-of'
import { formatView } from './view-text'

/** Nearer than this the map shows marks one by one; another splice need not change the zoom. */
const SINGLE_ZOOM = 11

const viewOfPlace = (place: SelectedPlace, zoomNow: number | undefined): MapView =>
  place.bbox
    ? viewOfBox(place.bbox, planSize())
    : { lon: place.lon, lat: place.lat, zoom: zoomNow !== undefined && zoomNow >= SINGLE_ZOOM ? zoomNow : CLOSE_ZOOM }

const textOf = (view: MapView | null): string | null => (view ? formatView(view) : null)

/**
 * The map's place in the address. The map reports where it is; a place in the address that it has not reported came from elsewhere (the
 * list, search, a link, Back), and the map goes there. Without a place in the address the map goes to what is selected.
 */
export function usePlan(version: number | undefined) {
  const { params, setParams, filter } = useOperationsView()
  const { at, sel } = params
  const selected = useSelectedPlace(sel, version)
  const [reported, setReported] = useState(textOf(at))
  const [box, setBox] = useState<Box | null>(null)
  const goal = useMemo(() => at ?? (selected.place ? viewOfPlace(selected.place, undefined) : null), [at, selected.place])
  const goalText = textOf(goal)
  const focus = useMemo<NetworkMapProps['focus']>(
    () => (goal && goalText !== reported ? { ...goal, key: `${reported} > ${goalText}` } : null),
    [goal, goalText, reported],
  )

  const seen = textOf(at)
  const onViewChange = useCallback(
    (view: MapView, bbox: Box) => {
      setBox(bbox)
      const text = formatView(view)
      // The map also speaks when only its size has changed.
      if (text === reported) return
      setReported(text)
      // A map that goes where the strip sent it leaves the strip alone; moved by anything else, it takes the strip along.
      // Where the map stood must not take back a place that was asked for while it was about to speak.
      void setParams((now) => (textOf(now.at) !== seen ? {} : text === seen ? { at: view } : { at: view, strip: null }))
    },
    [reported, seen, setParams],
  )

  const select = useCallback((next: Selection) => void setParams({ sel: next }), [setParams])

  /** Selects something and takes the map to it, as soon as its place is known. */
  const goTo = useCallback(
    (next: NonNullable<Selection>, place: SelectedPlace | null, byArrow = false) =>
      void setParams((now) => ({ sel: next, at: place && viewOfPlace(place, now.at?.zoom), strip: null }), { history: byArrow ? 'replace' : 'push' }),
    [setParams],
  )

  const outOfView = focus === null && box !== null && selected.place !== null && !isInView(selected.place, box)
  return {
    params, setParams, filter, box, view: goal, focus, onViewChange, select, goTo, selectedName: selected.name,
    /** The map can be opened where it belongs: what an address without a place asks for is known, or will not be. */
    placed: at !== null || sel === null || selected.settled,
    showSelected: outOfView && sel && selected.place ? () => goTo(sel, selected.place) : null,
  }
}
