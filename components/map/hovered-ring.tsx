'use client'
import { useEffect, useRef } from 'react'
import type { Map as MapLibreMap } from 'maplibre-gl'
import { useHovered } from './hovered'
import css from './map.module.css'
import { drawnAside } from './style/lanes'
import { SPLICES } from './style/splice-layers'

/** Where a splice that is pointed at in the list or on the strip stands on the map; outside the map nothing is shown. */
export function HoveredRing({ map }: { map: MapLibreMap }) {
  const ring = useRef<HTMLSpanElement>(null)
  const hovered = useHovered()
  const shown = hovered !== null && hovered.by !== 'map' ? hovered : null
  useEffect(() => {
    if (!shown) return
    const draw = () => {
      const mark = map.getSource(SPLICES) && map.querySourceFeatures(SPLICES, { sourceLayer: 'splices', filter: ['==', ['id'], shown.id] })[0]
      const [right, down] = drawnAside(mark?.properties ?? {}, map.getZoom())
      const { x, y } = map.project([shown.lon, shown.lat])
      ring.current?.style.setProperty('transform', `translate(${x + right}px, ${y + down}px)`)
    }
    draw()
    map.on('move', draw)
    return () => { map.off('move', draw) }
  }, [map, shown])
  return shown && <span ref={ring} className={css.hovered} data-hovered={shown.id} aria-hidden="true" />
}
