'use client'
import { useEffect, useRef } from 'react'
import type { Map as MapLibreMap } from 'maplibre-gl'
import { MOVE_MS } from './motion'
import type { NetworkMapProps } from './types'

const NEAR_ZOOM = 13.5

type ViewProps = Pick<NetworkMapProps, 'view' | 'focus' | 'networkBbox' | 'onViewChange'>

function report(map: MapLibreMap, onViewChange: NetworkMapProps['onViewChange']): void {
  const { lng, lat } = map.getCenter()
  const b = map.getBounds()
  onViewChange({ lon: lng, lat, zoom: map.getZoom() }, [b.getWest(), b.getSouth(), b.getEast(), b.getNorth()])
}

/** Reports where the map is, flies where it is told to, and shows the whole network where nobody said otherwise. */
export function useView(map: MapLibreMap | null, { view, focus, networkBbox, onViewChange }: ViewProps): void {
  const told = useRef(onViewChange)
  useEffect(() => { told.current = onViewChange })

  useEffect(() => {
    if (!map) return
    const onMoveEnd = () => report(map, told.current)
    map.on('moveend', onMoveEnd)
    onMoveEnd()
    return () => { map.off('moveend', onMoveEnd) }
  }, [map])

  const wentTo = useRef<string | null>(null)
  useEffect(() => {
    if (!map || !focus || wentTo.current === focus.key) return
    // A map that has just opened stands where it was asked to; only a map in use moves there visibly.
    const duration = wentTo.current === null ? 0 : MOVE_MS
    wentTo.current = focus.key
    if ('bbox' in focus) map.fitBounds(focus.bbox, { padding: 48, maxZoom: 18, duration })
    else map.easeTo({ center: [focus.lon, focus.lat], zoom: focus.zoom ?? Math.max(map.getZoom(), NEAR_ZOOM), duration })
  }, [map, focus])

  // The network's extent may be known only after the map: then it is shown, once.
  const fitted = useRef(view !== null || networkBbox !== null)
  useEffect(() => {
    if (!map || fitted.current || !networkBbox) return
    fitted.current = true
    map.fitBounds(networkBbox, { padding: 48, maxZoom: 14, duration: 0 })
  }, [map, networkBbox])
}
