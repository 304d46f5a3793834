'use client'
import { useEffect, useRef } from 'react'
import type { Map as MapLibreMap } from 'maplibre-gl'
import { MOVE_MS } from './motion'
import { roomIn } from './room'
import type { NetworkMapProps } from './types'

const NEAR_ZOOM = 13.5

type ViewProps = Pick<NetworkMapProps, 'view' | 'focus' | 'networkBbox' | 'onViewChange'>

function move(map: MapLibreMap, focus: NonNullable<NetworkMapProps['focus']>, duration: number): void {
  if ('bbox' in focus) map.fitBounds(focus.bbox, { padding: roomIn(map.getContainer()), maxZoom: 18, duration })
  else map.easeTo({ center: [focus.lon, focus.lat], zoom: focus.zoom ?? Math.max(map.getZoom(), NEAR_ZOOM), duration })
}

/** Reports where the map is, flies where it is told to, and shows the whole network where nobody said otherwise. */
export function useView(map: MapLibreMap | null, { view, focus, networkBbox, onViewChange }: ViewProps): void {
  const told = useRef(onViewChange)
  useEffect(() => { told.current = onViewChange })

  const wentTo = useRef<string | null>(null)
  const inUse = useRef(false)
  const silent = useRef(false)
  // Before the reports: a map that opens with somewhere to go must not first tell of where it happened to stand.
  useEffect(() => {
    // Asked for nothing in between, the same place is asked for anew.
    if (!focus) wentTo.current = null
    if (!map || !focus || wentTo.current === focus.key) return
    wentTo.current = focus.key
    // A map that has just opened stands where it was asked to; only a map in use moves there visibly.
    const duration = inUse.current ? MOVE_MS : 0
    inUse.current = true
    // A flight cut short lands nowhere that is worth telling.
    const stop = () => {
      silent.current = true
      map.stop()
      silent.current = false
    }
    stop()
    // Where the sheet slides in or out meanwhile, the flight would end beside its goal.
    const arrive = () => {
      stop()
      move(map, focus, 0)
    }
    map.on('resize', arrive)
    map.once('moveend', () => map.off('resize', arrive))
    move(map, focus, duration)
  }, [map, focus])

  useEffect(() => {
    if (!map) return
    let last = ''
    const report = () => {
      const { lng, lat } = map.getCenter()
      const zoom = map.getZoom()
      const b = map.getBounds()
      const here = `${lng},${lat},${zoom},${b.getWest()},${b.getNorth()}`
      if (silent.current || here === last) return
      last = here
      told.current({ lon: lng, lat, zoom }, [b.getWest(), b.getSouth(), b.getEast(), b.getNorth()])
    }
    map.on('moveend', report)
    report()
    return () => { map.off('moveend', report) }
  }, [map])

  // The network's extent may be known only after the map: then it is shown, once.
  const fitted = useRef(view !== null || networkBbox !== null)
  useEffect(() => {
    if (!map || fitted.current || !networkBbox) return
    fitted.current = true
    map.fitBounds(networkBbox, { padding: roomIn(map.getContainer()), maxZoom: 14, duration: 0 })
  }, [map, networkBbox])
}
