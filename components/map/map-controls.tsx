'use client'
import { useEffect, useRef } from 'react'
import type { Map as MapLibreMap, ScaleControl } from 'maplibre-gl'
import css from './map.module.css'
import { MOVE_MS } from './motion'
import { roomIn } from './room'

/** A scale bar in the user's units. */
export function useScale(map: MapLibreMap | null, unitSystem: 'us' | 'metric'): void {
  const control = useRef<ScaleControl | null>(null)
  const unit = unitSystem === 'us' ? 'imperial' : 'metric'
  useEffect(() => {
    if (!map) return
    let ended = false
    void import('maplibre-gl').then(({ ScaleControl: Scale }) => {
      if (ended) return
      control.current = new Scale({ maxWidth: 110, unit })
      map.addControl(control.current, 'bottom-right')
    })
    return () => {
      ended = true
      if (control.current && map.hasControl(control.current)) map.removeControl(control.current)
      control.current = null
    }
  }, [map, unit])
}

/** Zoom in, out, and back to the whole network. */
export function MapControls({ map, networkBbox }: { map: MapLibreMap; networkBbox: [number, number, number, number] | null }) {
  const button = (label: string, path: string, act: () => void) => (
    <button type="button" aria-label={label} title={label} onClick={act}>
      <svg width="16" height="16" viewBox="0 0 16 16" fill="none" stroke="currentColor" strokeWidth="1.5" aria-hidden="true">
        <path d={path} />
      </svg>
    </button>
  )
  return (
    <div className={css.controls} role="group" aria-label="Map view">
      {button('Zoom in', 'M8 3v10M3 8h10', () => map.zoomIn({ duration: MOVE_MS }))}
      {button('Zoom out', 'M3 8h10', () => map.zoomOut({ duration: MOVE_MS }))}
      {networkBbox && button('Show the whole network', 'M2.5 6V2.5H6M10 2.5h3.5V6M13.5 10v3.5H10M6 13.5H2.5V10',
        () => map.fitBounds(networkBbox, { padding: roomIn(map.getContainer()), duration: MOVE_MS }))}
    </div>
  )
}
