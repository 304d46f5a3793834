'use client'
import { useEffect, useRef } from 'react'
import type { Map as MapLibreMap } from 'maplibre-gl'
import { MOVE_MS } from './motion'
import type { NetworkMapProps } from './types'

const NEAR_ZOOM = 13.5

type ViewProps = Pick<NetworkMapProps, 'view' | 'focus' | 'networkBbox' | 'onViewChange'>

/** Reports where the map is, flies where it is told to, and shows the whole network where nobody said otherwise. */
export function useView(map: MapLibreMap | null, { view, focus, networkBbox, onViewChange }: ViewProps): void {
  const told = useRef(onViewChange)
  useEffect(() => { told.current = onViewChange })

  useEffect(() => {
    if (!map) return
    let last = ''
    const report = () => {
      const { lng, lat } = map.getCenter()
      const zoom = map.getZoom()
      // A map whose frame is resized ends a move without having moved: telling of it would take back a view just asked for.
      const here = `${lng},${lat},${zoom}`
      if (here === last) return
      last = here
      const b = map.getBounds()
      told.current({ lon: lng, lat, zoom }, [b.getWest(), b.getSouth(), b.getEast(), b.getNorth()])
    }
    map.on('moveend', report)
    report()
    return () => { map.off('moveend', report) }
  }, [map])

  const wentTo = useRef<string | null>(null)
  const inUse = useRef(false)
  useEffect(() => {
    // Asked for nothing in between, the same place is asked for anew.
    if (!focus) wentTo.current = null
    if (!map || !focus || wentTo.current === focus.key) return
    // A map that has just opened stands where it was asked to; only a map in use moves there visibly.
    const duration = inUse.current ? MOVE_MS : 0
    inUse.current = true
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
