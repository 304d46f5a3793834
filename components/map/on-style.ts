import type { Map as MapLibreMap } from 'maplibre-gl'
import { SELECTED } from './style/overlay-layers'

/** Runs now where our layers are in the style, and again whenever a style arrives. Returns what ends it. */
export function onStyle(map: MapLibreMap, run: () => void): () => void {
  const whenReady = () => { if (map.getSource(SELECTED)) run() }
  whenReady()
  map.on('styledata', whenReady)
  return () => { map.off('styledata', whenReady) }
}
