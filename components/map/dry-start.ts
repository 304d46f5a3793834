import type { Map as MapLibreMap, MapSourceDataEvent, StyleSpecification } from 'maplibre-gl'
import type { Theme } from './class-colours'
import { BASE, BASE_SEA } from './style/base-layers'
import { PALETTES } from './style/palette'

/**
 * A style whose ground is land until the first of its tiles has come: lines stand on land, and a territory that opens as one lake and
 * turns to land afterwards looks broken.
 */
export const dryStyle = (style: StyleSpecification, theme: Theme): StyleSpecification => ({
  ...style,
  layers: style.layers.map((layer) => (layer.id === BASE_SEA && layer.type === 'background'
    ? { ...layer, paint: { ...layer.paint, 'background-color': PALETTES[theme].land } } : layer)),
})

/** Lets the water in with the first tile of the ground, and says so; returns what ends the waiting. */
export function floodWhenDrawn(map: MapLibreMap, theme: Theme, drawn: () => void): () => void {
  const end = () => map.off('sourcedata', onData)
  const onData = (e: MapSourceDataEvent) => {
    if (e.sourceId !== BASE || !e.tile || !map.getLayer(BASE_SEA)) return
    end()
    drawn()
    map.setPaintProperty(BASE_SEA, 'background-color', PALETTES[theme].water)
  }
  map.on('sourcedata', onData)
  return () => { end() }
}
