import type { MapView } from '@/components/map/types'

/** Close enough to tell neighbouring structures and splices apart. */
export const CLOSE_ZOOM = 14
const PLACE_ZOOM = 13
const TILE_PX = 512

/** West, south, east, north in degrees. */
export type Box = readonly [number, number, number, number]

export interface ScreenSize {
  widthPx: number
  heightPx: number
}

const mercatorY = (latDeg: number): number => {
  const lat = (Math.max(-85, Math.min(85, latDeg)) * Math.PI) / 180
  return 0.5 - Math.log(Math.tan(Math.PI / 4 + lat / 2)) / (2 * Math.PI)
}

/**
 * The view that shows a box (west, south, east, north in degrees) whole with a margin of a tenth on a screen of this size; never
 * closer than where neighbouring splices part.
 */
export function viewOfBox([west, south, east, north]: Box, size: ScreenSize): MapView {
  const spanX = Math.max((east - west) / 360, 1e-7)
  const spanY = Math.max(mercatorY(south) - mercatorY(north), 1e-7)
  const zoom = Math.log2(Math.min((size.widthPx * 0.8) / (TILE_PX * spanX), (size.heightPx * 0.8) / (TILE_PX * spanY)))
  return { lon: (west + east) / 2, lat: (south + north) / 2, zoom: Math.max(1, Math.min(CLOSE_ZOOM, zoom)) }
}

/** Where the map goes for something that was found. */
export function viewOf(
  item: { kind: string; lon: number; lat: number; bbox?: Box },
  size: ScreenSize,
): MapView {
  if (item.bbox) return viewOfBox(item.bbox, size)
  return { lon: item.lon, lat: item.lat, zoom: item.kind === 'place' ? PLACE_ZOOM : CLOSE_ZOOM }
}

/** The map's size on screen, else that of a desk. Browser only. */
export function planSize(): ScreenSize {
  const box = document.getElementById('plan')?.getBoundingClientRect()
  return box && box.width > 0 ? { widthPx: box.width, heightPx: box.height } : { widthPx: 720, heightPx: 800 }
}

/** Whether any of a place can be seen in a view's box. */
export function isInView({ lon, lat, bbox = [lon, lat, lon, lat] }: { lon: number; lat: number; bbox?: Box }, view: Box): boolean {
  return bbox[0] <= view[2] && bbox[2] >= view[0] && bbox[1] <= view[3] && bbox[3] >= view[1]
}
