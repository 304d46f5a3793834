'use client'
import { useEffect, useRef } from 'react'
import type { GeoJSONSource, Map as MapLibreMap, Marker } from 'maplibre-gl'
import type { Feature } from 'geojson'
import { asideOnSpan } from './drawn-on-line'
import css from './map.module.css'
import { onStyle } from './on-style'
import { PLACEMENT } from './style/overlay-layers'
import type { PlacementOverlay } from './types'

const METRES_PER_DEGREE = 111_320
/** The radius within which 68 % of positions fall, in standard deviations per axis. */
const RADIUS_68 = 1.515

/** A circle on the ground as a ring of positions; planar, good for some hundred metres. */
export function groundCircle(lon: number, lat: number, radiusM: number): [number, number][] {
  const latDeg = radiusM / METRES_PER_DEGREE
  const lonDeg = latDeg / Math.max(0.05, Math.cos((lat * Math.PI) / 180))
  return Array.from({ length: 49 }, (_, i) => {
    const turn = (2 * Math.PI * (i % 48)) / 48
    return [lon + lonDeg * Math.cos(turn), lat + latDeg * Math.sin(turn)]
  })
}

/** Where the mark stands: where a person put it, else at the chosen candidate, else at the raw position. */
export function markOf({ mark, candidates, chosenIndex, raw }: PlacementOverlay): { lon: number; lat: number } | null {
  return mark ?? (chosenIndex === null ? null : candidates[chosenIndex]) ?? raw
}

function drawing(overlay: PlacementOverlay): Feature[] {
  const { raw, candidates, course } = overlay
  const feature = (geometry: Feature['geometry'], kind = ''): Feature => ({ type: 'Feature', geometry, properties: { kind } })
  const meant = course ? [feature({ type: 'LineString', coordinates: course.map((at) => [...at]) }, 'course')] : []
  if (!raw) return meant
  const circle = raw.sigmaM > 0 ? [feature({ type: 'Polygon', coordinates: [groundCircle(raw.lon, raw.lat, RADIUS_68 * raw.sigmaM)] })] : []
  return [...meant, ...circle, ...candidates.map((c) => feature({ type: 'LineString', coordinates: [[raw.lon, raw.lat], [c.lon, c.lat]] }))]
}

function element(tag: 'div' | 'button', className: string | undefined, text = ''): HTMLElement {
  const e = document.createElement(tag)
  if (tag === 'div') e.setAttribute('role', 'img') // so that it may carry a name
  e.className = className ?? ''
  e.textContent = text
  return e
}

/** The raw position with its accuracy, the numbered candidates, and the mark that a person may drag. */
export function usePlacement(map: MapLibreMap | null, overlay: PlacementOverlay | undefined): void {
  const latest = useRef(overlay)
  useEffect(() => { latest.current = overlay })
  const key = overlay && JSON.stringify([overlay.readingId, overlay.raw, overlay.course, overlay.candidates, overlay.chosenIndex, overlay.mark])

  useEffect(() => {
    const shown = latest.current
    if (!map || !key || !shown) return
    const markers: Marker[] = []
    const onLines: { marker: Marker; candidate: PlacementOverlay['candidates'][number] }[] = []
    const settle = () => {
      for (const { marker, candidate } of onLines) marker.setOffset(asideOnSpan(map, candidate.span_id, candidate))
    }
    let ended = false
    void import('maplibre-gl').then(({ Marker: MapMarker }) => {
      if (ended) return
      const put = (e: HTMLElement, at: { lon: number; lat: number }, draggable = false) => {
        const marker = new MapMarker({ element: e, draggable }).setLngLat([at.lon, at.lat]).addTo(map)
        markers.push(marker)
        return marker
      }
      if (shown.raw) put(element('div', css.raw), shown.raw).getElement().setAttribute('aria-label', 'Position as read')
      shown.candidates.forEach((candidate, i) => {
        const button = element('button', css.candidate, String(i + 1))
        button.setAttribute('aria-pressed', String(i === shown.chosenIndex))
        button.setAttribute('aria-label', `Candidate ${i + 1}: circuit ${candidate.circuit}`)
        button.addEventListener('click', (e) => {
          e.stopPropagation()
          latest.current?.onChoose(i)
        })
        onLines.push({ marker: put(button, candidate), candidate })
      })
      const at = markOf(shown)
      // Without candidates and without a mark of its own the overlay only shows a place; there is nothing to move.
      if (!at || (shown.mark === undefined && shown.candidates.length === 0)) return
      const mark = put(element('div', css.mark), at, true)
      const chosen = shown.candidates.find((c) => c === at)
      if (chosen) onLines.push({ marker: mark, candidate: chosen })
      settle()
      mark.getElement().setAttribute('aria-label', 'Mark: drag it to where the splice is')
      mark.on('dragend', () => {
        const { lng, lat } = mark.getLngLat()
        latest.current?.onDrag(lng, lat)
      })
    })
    const endStyle = onStyle(map, () => {
      map.getSource<GeoJSONSource>(PLACEMENT)?.setData({ type: 'FeatureCollection', features: drawing(shown) })
    })
    map.on('zoomend', settle)
    map.on('idle', settle)
    return () => {
      ended = true
      map.off('zoomend', settle)
      map.off('idle', settle)
      endStyle()
      for (const marker of markers) marker.remove()
      map.getSource<GeoJSONSource>(PLACEMENT)?.setData({ type: 'FeatureCollection', features: [] })
    }
  }, [map, key])
}
