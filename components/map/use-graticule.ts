'use client'
import { useEffect } from 'react'
import type { Feature } from 'geojson'
import type { GeoJSONSource, Map as MapLibreMap } from 'maplibre-gl'
import { onStyle } from './on-style'
import { BASE_DETAIL_ENDS } from './style/base-layers'
import { GRATICULE } from './style/overlay-layers'

const STEPS_DEG = [0.0005, 0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1]
/** Lines nearer than this, in CSS px, would be a net rather than a measure. */
const LEAST_SPACING_PX = 200
const WORLD_PX_AT_ZOOM_0 = 512

/** Degrees from line to line at a zoom: a round number at least LEAST_SPACING_PX wide along a parallel at the equator. */
export function graticuleStepDeg(zoom: number): number {
  const least = (LEAST_SPACING_PX * 360) / (WORLD_PX_AT_ZOOM_0 * 2 ** zoom)
  return STEPS_DEG.find((s) => s >= least) ?? 1
}

const named = (deg: number, step: number, letters: string): string => {
  const decimals = Math.max(0, Math.ceil(-Math.log10(step)))
  return `${Math.abs(deg).toFixed(decimals)}° ${letters[deg < 0 ? 1 : 0] ?? ''}`
}

/** Parallels and meridians over a box, each with its name. */
export function graticule([west, south, east, north]: readonly [number, number, number, number], step: number): Feature[] {
  const ticks = (from: number, to: number) =>
    Array.from({ length: Math.max(0, Math.floor(to / step) - Math.ceil(from / step) + 1) }, (_, i) => (Math.ceil(from / step) + i) * step)
  const line = (a: [number, number], b: [number, number], name: string): Feature =>
    ({ type: 'Feature', geometry: { type: 'LineString', coordinates: [a, b] }, properties: { name } })
  return [
    ...ticks(south, north).map((lat) => line([west, lat], [east, lat], named(lat, step, 'NS'))),
    ...ticks(west, east).map((lon) => line([lon, south], [lon, north], named(lon, step, 'EW'))),
  ]
}

/** Where the embedded basemap has nothing more to show, a quiet net of coordinates keeps the sheet's measure. */
export function useGraticule(map: MapLibreMap | null, wanted: boolean): void {
  useEffect(() => {
    if (!map) return
    const draw = () => {
      const source = map.getSource<GeoJSONSource>(GRATICULE)
      if (!source) return
      const zoom = map.getZoom()
      const b = map.getBounds()
      const [halfWidth, halfHeight] = [(b.getEast() - b.getWest()) / 2, (b.getNorth() - b.getSouth()) / 2]
      const box = [b.getWest() - halfWidth, b.getSouth() - halfHeight, b.getEast() + halfWidth, b.getNorth() + halfHeight] as const
      const features = wanted && zoom > BASE_DETAIL_ENDS ? graticule(box, graticuleStepDeg(zoom)) : []
      source.setData({ type: 'FeatureCollection', features })
    }
    const ended = onStyle(map, draw)
    map.on('moveend', draw)
    return () => {
      ended()
      map.off('moveend', draw)
    }
  }, [map, wanted])
}
