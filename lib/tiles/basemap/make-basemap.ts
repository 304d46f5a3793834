import GeoJSONVT from 'geojson-vt'
import { encodeTile, EXTENT, type TileFeature } from '../encode'
import { basemapLayers, type BasemapLayer } from './layers'
import { pmtilesArchive, type ArchiveTile } from './pmtiles-archive'
import { BASEMAP_ATTRIBUTION, type BasemapSources } from './sources'

/** The sources are drawn for about 1:10 million; further in, the renderer enlarges this zoom's tiles. */
const BASEMAP_MAX_ZOOM = 7

interface Tiler { name: string; layer: BasemapLayer; index: GeoJSONVT }

function featuresAt({ layer, index }: Tiler, z: number, x: number, y: number): TileFeature[] {
  if (z < layer.fromZoom) return []
  const features = (index.getTile(z, x, y)?.features ?? []) as TileFeature[]
  const { shows } = layer
  return shows ? features.filter((f) => shows(f.tags ?? {}, z)) : features
}

/**
 * The embedded world basemap, zooms 0 to BASEMAP_MAX_ZOOM, as a PMTiles v3 archive. Deterministic.
 * `onTiles` is told the number of tiles made so far now and then.
 */
export function makeBasemap(sources: BasemapSources, onTiles?: (count: number) => void): Buffer {
  const layers = basemapLayers(sources, BASEMAP_MAX_ZOOM)
  const tilers = Object.entries(layers).map(([name, layer]): Tiler => {
    const { tolerance, buffer } = layer
    const options = { maxZoom: BASEMAP_MAX_ZOOM, indexMaxZoom: 5, indexMaxPoints: 0, extent: EXTENT, tolerance, buffer }
    return { name, layer, index: new GeoJSONVT(layer.data, options) }
  })
  const tiles: ArchiveTile[] = []
  const visit = (z: number, x: number, y: number): void => {
    const content = Object.fromEntries(tilers.map((t) => [t.name, featuresAt(t, z, x, y)]))
    if (Object.values(content).every((features) => features.length === 0)) return
    tiles.push({ z, x, y, bytes: encodeTile(content) })
    if (tiles.length % 1000 === 0) onTiles?.(tiles.length)
    if (z === BASEMAP_MAX_ZOOM) return
    for (const [dx, dy] of [[0, 0], [1, 0], [0, 1], [1, 1]] as const) visit(z + 1, 2 * x + dx, 2 * y + dy)
  }
  visit(0, 0, 0)
  return pmtilesArchive(tiles, {
    minZoom: 0, maxZoom: BASEMAP_MAX_ZOOM, bounds: [-180, -85.0511, 180, 85.0511], centre: { lon: -98, lat: 40, zoom: 3 },
    metadata: {
      name: 'Spanledger basemap', format: 'pbf', type: 'baselayer', attribution: BASEMAP_ATTRIBUTION,
      vector_layers: tilers.map((t) => ({ id: t.name, minzoom: t.layer.fromZoom, maxzoom: BASEMAP_MAX_ZOOM, fields: {} })),
    },
  })
}
