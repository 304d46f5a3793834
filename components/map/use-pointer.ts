'use client'
import { useEffect, useRef, useState } from 'react'
import type { Map as MapLibreMap, MapMouseEvent } from 'maplibre-gl'
import { setHovered, unhover } from './hovered'
import { MOVE_MS } from './motion'
import { pickAt, type Picked } from './pick'
import type { NetworkMapProps } from './types'

const CLUSTER_STEP_ZOOM = 2

export interface Hover { x: number; y: number; picked: NonNullable<Picked> }

/** Click picks, worst first; a cluster opens by zooming; the pointer says what would be picked. Enter picks at the cross, Escape clears. */
export function usePointer(
  map: MapLibreMap | null, onSelect: NetworkMapProps['onSelect'], onUnsettled: NetworkMapProps['onUnsettled'], onSpan: ((id: number) => void) | undefined,
): Hover | null {
  const [hover, setHover] = useState<Hover | null>(null)
  const select = useRef(onSelect)
  const settle = useRef(onUnsettled)
  const span = useRef(onSpan)
  useEffect(() => {
    select.current = onSelect
    settle.current = onUnsettled
    span.current = onSpan
  })

  useEffect(() => {
    if (!map) return
    const canvas = map.getCanvas()
    const act = (picked: Picked) => {
      if (picked?.kind === 'cluster') {
        map.easeTo({ center: [picked.lon, picked.lat], zoom: Math.min(19, map.getZoom() + CLUSTER_STEP_ZOOM), duration: MOVE_MS })
      } else if (picked?.kind === 'unsettled') settle.current?.(picked.id)
      else if (picked?.kind === 'span') span.current?.(picked.id)
      else if (picked?.kind !== 'track') select.current(picked && { kind: picked.kind, id: picked.id })
    }
    const onClick = (e: MapMouseEvent) => act(pickAt(map, e.point.x, e.point.y))
    let frame = 0
    const onMove = (e: MapMouseEvent) => {
      cancelAnimationFrame(frame)
      frame = requestAnimationFrame(() => {
        const picked = map.isMoving() ? null : pickAt(map, e.point.x, e.point.y, 3)
        canvas.style.cursor = picked ? 'pointer' : ''
        setHover(picked && { x: e.point.x, y: e.point.y, picked })
        if (picked?.kind === 'splice') setHovered({ id: picked.id, lon: e.lngLat.lng, lat: e.lngLat.lat, by: 'map' })
        else unhover('map')
      })
    }
    const onLeave = () => {
      cancelAnimationFrame(frame)
      setHover(null)
      unhover('map')
    }
    const onKey = (e: KeyboardEvent) => {
      if (e.key === 'Escape') select.current(null)
      if (e.key === 'Enter') act(pickAt(map, canvas.clientWidth / 2, canvas.clientHeight / 2, 14))
    }
    map.on('click', onClick)
    map.on('mousemove', onMove)
    map.on('movestart', onLeave)
    canvas.addEventListener('mouseleave', onLeave)
    canvas.addEventListener('keydown', onKey)
    return () => {
      cancelAnimationFrame(frame)
      map.off('click', onClick)
      map.off('mousemove', onMove)
      map.off('movestart', onLeave)
      canvas.removeEventListener('mouseleave', onLeave)
      canvas.removeEventListener('keydown', onKey)
    }
  }, [map])
  return hover
}
