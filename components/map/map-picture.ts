import { useEffect } from 'react'
import type { Map as MapLibreMap } from 'maplibre-gl'

/** What the map shows at one moment. */
export interface MapPicture {
  canvas: HTMLCanvasElement
  widthPx: number
  heightPx: number
  metresPerPx: number
  /** Whose ground it is. */
  attribution: string
  /** What its lines show where that is not their condition. */
  says: string | null
}

const EARTH_M = 40_075_016.686
const TILE_PX = 512
const SLOW_MS = 4_000

let take: (() => Promise<MapPicture | null>) | null = null

/** Metres on the ground under a CSS px in the middle of a Mercator map. */
export const metresPerPx = (latDeg: number, zoom: number): number => (Math.cos((latDeg * Math.PI) / 180) * EARTH_M) / (TILE_PX * 2 ** zoom)

/** The map on screen as a picture; null where none is drawn. */
export const takeMapPicture = (): Promise<MapPicture | null> => take?.() ?? Promise.resolve(null)

/** Lets others take a picture of this map while it is on screen. */
export function useMapPicture(map: MapLibreMap | null, says: string | null): void {
  useEffect(() => {
    if (!map) return
    const own = () => pictureOf(map, says)
    take = own
    return () => { if (take === own) take = null }
  }, [map, says])
}

/** What WebGL has drawn is there only within the frame that draws it. */
const pictureOf = (map: MapLibreMap, says: string | null): Promise<MapPicture | null> => new Promise((resolve) => {
  const late = setTimeout(() => resolve(null), SLOW_MS)
  map.once('render', () => {
    clearTimeout(late)
    const from = map.getCanvas()
    const canvas = document.createElement('canvas')
    canvas.width = from.width
    canvas.height = from.height
    canvas.getContext('2d')?.drawImage(from, 0, 0)
    resolve({
      canvas, widthPx: from.clientWidth, heightPx: from.clientHeight, metresPerPx: metresPerPx(map.getCenter().lat, map.getZoom()),
      attribution: map.getContainer().querySelector('.maplibregl-ctrl-attrib')?.textContent.trim() ?? '', says,
    })
  })
  map.triggerRepaint()
})
