import { fromGeojsonVt } from '@maplibre/vt-pbf'

/** Tile units across one tile; MapLibre draws a tile 512 CSS px wide, so 8 units are a pixel. */
export const EXTENT = 4096

/** A property that a vector tile can hold; null and undefined are left out. */
export type TileValue = string | number | boolean | null | undefined

interface TileFeatureBase { id?: number; tags: Record<string, TileValue> }
export interface TilePoint extends TileFeatureBase { type: 1; geometry: [number, number][] }
export interface TileShape extends TileFeatureBase { type: 2 | 3; geometry: [number, number][][] }
export type TileFeature = TilePoint | TileShape

type EncoderLayers = Parameters<typeof fromGeojsonVt>[0]

/**
 * Mapbox Vector Tile 2.1 bytes, not compressed. Coordinates are tile units (0 … EXTENT, y down); layers without features are left out.
 * Ids must be whole numbers below 2^53.
 */
export function encodeTile(layers: Record<string, TileFeature[]>): Uint8Array {
  const filled: Record<string, { features: TileFeature[] }> = {}
  for (const [name, features] of Object.entries(layers)) if (features.length > 0) filled[name] = { features }
  // The encoder reads features alone; the rest of its declared type belongs to the tiler it was written for.
  return fromGeojsonVt(filled as unknown as EncoderLayers, { version: 2, extent: EXTENT })
}
