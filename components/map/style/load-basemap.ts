import type { StyleSpecification } from 'maplibre-gl'
import { PMTiles, TileType } from 'pmtiles'
import { z } from 'zod'
import type { Theme } from '../class-colours'
import type { NetworkMapProps } from '../types'
import { BASE } from './base-layers'
import { embeddedBasemap, type Basemap } from './make-style'
import { operatorLayers } from './operator-layers'

const PATIENCE_MS = 8000
const OSM_ATTRIBUTION = '© <a href="https://www.openstreetmap.org/copyright" target="_blank" rel="noreferrer">OpenStreetMap</a> contributors'

export interface LoadedBasemap {
  basemap: Basemap
  embedded: boolean
  /** Why the operator's own could not be used. */
  failure: string | null
}

/** As much of a style as we rely on; the renderer checks the rest. */
const identified = z.looseObject({ id: z.string() })
const styleShape = z.looseObject({ version: z.literal(8), sources: z.record(z.string(), z.unknown()), layers: z.array(identified) })
const metadataShape = z.looseObject({ attribution: z.string().optional(), vector_layers: z.array(identified).optional() })

function withPatience<T>(work: Promise<T>): Promise<T> {
  const late = new Promise<never>((_, reject) => setTimeout(() => reject(new Error('it did not answer within 8 s')), PATIENCE_MS))
  return Promise.race([work, late])
}

async function pmtilesBasemap(url: string, theme: Theme): Promise<Basemap> {
  const archive = new PMTiles(url)
  const { tileType } = await archive.getHeader()
  const metadata = metadataShape.parse((await archive.getMetadata()) ?? {})
  const attribution = metadata.attribution ?? OSM_ATTRIBUTION
  if (tileType !== TileType.Mvt) {
    const source = { type: 'raster' as const, url: `pmtiles://${url}`, tileSize: 256, attribution }
    const layer = { id: 'base-raster', type: 'raster' as const, source: BASE }
    return { style: { version: 8, sources: { [BASE]: source }, layers: [layer] }, above: new Set() }
  }
  const layers = operatorLayers((metadata.vector_layers ?? []).map((l) => l.id), theme)
  if (!layers) throw new Error('its layers have neither of the layouts this map can draw')
  const source = { type: 'vector' as const, url: `pmtiles://${url}`, attribution }
  return {
    style: { version: 8, sources: { [BASE]: source }, layers: [...layers.ground, ...layers.names] },
    above: new Set(layers.names.map((l) => l.id)),
  }
}

async function styleBasemap(url: string): Promise<Basemap> {
  const response = await fetch(url, { signal: AbortSignal.timeout(PATIENCE_MS) })
  if (!response.ok) throw new Error(`it answered ${response.status}`)
  const read = styleShape.safeParse(await response.json())
  if (!read.success) throw new Error('it is not a version 8 style')
  const style = read.data as unknown as StyleSpecification
  return { style, above: new Set(style.layers.filter((l) => l.type === 'symbol').map((l) => l.id)) }
}

/**
 * The basemap that the setting asks for, or the embedded one with the reason. Never rejects. `origin` is the page's, without a slash at
 * its end; addresses in settings may be relative to it.
 */
export async function loadBasemap(setting: NetworkMapProps['basemap'], theme: Theme, origin: string): Promise<LoadedBasemap> {
  const embedded = embeddedBasemap(origin, theme)
  if (setting.kind === 'embedded') return { basemap: embedded, embedded: true, failure: null }
  try {
    const url = new URL(setting.url, origin).href
    const basemap = await withPatience(setting.kind === 'pmtiles' ? pmtilesBasemap(url, theme) : styleBasemap(url))
    return { basemap, embedded: false, failure: null }
  } catch (e) {
    return { basemap: embedded, embedded: true, failure: e instanceof Error ? e.message : 'it could not be read' }
  }
}
