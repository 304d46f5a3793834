import type { Map as MapLibreMap } from 'maplibre-gl'
import { laneAsidePx } from './style/lanes'
import { CIRCUITS } from './style/network-layers'

export interface Point { x: number; y: number }

/** From a point to the nearest place on a line of points, and on to its right by `asidePx`; null for a line without length. */
export function stepToLine(p: Point, line: readonly Point[], asidePx: number): Point | null {
  let nearest: { apart: number; step: Point } | null = null
  for (const [i, b] of line.slice(1).entries()) {
    const a = line[i] ?? b
    const length = Math.hypot(b.x - a.x, b.y - a.y)
    if (length === 0) continue
    const [ux, uy] = [(b.x - a.x) / length, (b.y - a.y) / length]
    const along = Math.max(0, Math.min(length, (p.x - a.x) * ux + (p.y - a.y) * uy))
    const [x, y] = [a.x + along * ux - p.x, a.y + along * uy - p.y]
    const apart = Math.hypot(x, y)
    if (!nearest || apart < nearest.apart) nearest = { apart, step: { x: x - uy * asidePx, y: y + ux * asidePx } }
  }
  return nearest?.step ?? null
}

/**
 * How far beside its place something on a span must be drawn to stand on the span's line as the map draws it now, CSS px right and down:
 * circuits on the same structures are drawn apart from afar.
 */
export function asideOnSpan(map: MapLibreMap, spanId: number, place: { lon: number; lat: number }): [right: number, down: number] {
  const pieces = map.getSource(CIRCUITS) ? map.querySourceFeatures(CIRCUITS, { sourceLayer: 'spans', filter: ['==', ['id'], spanId] }) : []
  const at = map.project([place.lon, place.lat])
  const steps = pieces.flatMap(({ geometry, properties }) => {
    const lane = Number(properties.lane) || 0
    if (geometry.type !== 'LineString' || lane === 0) return []
    const line = geometry.coordinates.map(([lon = 0, lat = 0]) => map.project([lon, lat]))
    return stepToLine(at, line, laneAsidePx(lane, map.getZoom())) ?? []
  })
  const nearest = steps.sort((a, b) => Math.hypot(a.x, a.y) - Math.hypot(b.x, b.y))[0]
  return nearest ? [nearest.x, nearest.y] : [0, 0]
}
