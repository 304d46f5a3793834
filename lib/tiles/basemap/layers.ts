import type { Feature, FeatureCollection, MultiLineString, MultiPolygon, Polygon, Position } from 'geojson'
import { feature, mesh } from 'topojson-client'
import { placeFeatures } from './places'
import { smoothWater } from './smooth'
import type { BasemapSources } from './sources'

export interface BasemapLayer {
  data: FeatureCollection
  fromZoom: number
  /** Tile units by which features reach into neighbouring tiles. */
  buffer: number
  /** Simplification in tile units; 0 for points. */
  tolerance: number
  /** Whether a feature with these properties shows at a zoom. */
  shows?(properties: Record<string, unknown>, zoom: number): boolean
}

const collection = (features: Feature[]): FeatureCollection => ({ type: 'FeatureCollection', features })
const lines = (geometry: MultiLineString): FeatureCollection => collection([{ type: 'Feature', geometry, properties: {} }])

/** The sheet's own edges (the antimeridian, the south pole) are no shore. */
const onSheetEdge = ([lon = 0, lat = 0]: Position) => Math.abs(lon) > 179.99 || lat < -85

function withoutSheetEdge(shore: MultiLineString): MultiLineString {
  const coordinates: Position[][] = []
  for (const line of shore.coordinates) {
    let part: Position[] = []
    for (const position of line) {
      const last = part.at(-1)
      if (last && onSheetEdge(last) && onSheetEdge(position)) {
        if (part.length > 1) coordinates.push(part)
        part = []
      }
      part.push(position)
    }
    if (part.length > 1) coordinates.push(part)
  }
  return { type: 'MultiLineString', coordinates }
}

/** Twice the signed area and the centroid of a ring, in degrees. */
function ringCentroid(ring: Position[]): { area: number; lon: number; lat: number } {
  let area = 0
  let lon = 0
  let lat = 0
  for (let i = 0; i + 1 < ring.length; i++) {
    const [x0 = 0, y0 = 0] = ring[i] ?? []
    const [x1 = 0, y1 = 0] = ring[i + 1] ?? []
    const cross = x0 * y1 - x1 * y0
    area += cross
    lon += (x0 + x1) * cross
    lat += (y0 + y1) * cross
  }
  return area === 0 ? { area, lon: 0, lat: 0 } : { area: Math.abs(area), lon: lon / (3 * area), lat: lat / (3 * area) }
}

/** Where a region's name stands: the middle of its largest part, with that part's size in square degrees. */
function nameFeature(region: Feature, kind: 'country' | 'state' | 'lake'): Feature | null {
  const geometry = region.geometry as Polygon | MultiPolygon
  const polygons = geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates
  const largest = polygons.map((p) => ringCentroid(p[0] ?? [])).sort((a, b) => b.area - a.area)[0]
  const name: unknown = region.properties?.name
  if (!largest || typeof name !== 'string') return null
  const geometryOfName = { type: 'Point' as const, coordinates: [largest.lon, largest.lat] }
  return { type: 'Feature', geometry: geometryOfName, properties: { name, kind, size: largest.area / 2 } }
}

const number = (value: unknown, otherwise: number) => (typeof value === 'number' ? value : otherwise)

/** The basemap's layers under the names its style uses. Pure: the same sources give the same layers. */
export function basemapLayers(s: BasemapSources, maxZoom: number): Record<string, BasemapLayer> {
  const { countries, land } = s.world.objects
  const { states, counties } = s.unitedStates.objects
  const named = (regions: Feature[], kind: 'country' | 'state' | 'lake') =>
    regions.map((r) => nameFeature(r, kind)).filter((f) => f !== null)
  const names = [
    ...named(feature(s.world, countries).features, 'country'),
    ...named(feature(s.unitedStates, states).features, 'state'),
    ...named(s.lakes.features, 'lake'),
  ]
  const rivers = s.rivers.features.map((f): Feature => (
    { ...smoothWater(f), properties: { from: number(f.properties?.min_zoom, 5), weight: number(f.properties?.strokeweig, 0.2) } }
  ))
  const lakes = s.lakes.features.map((f): Feature => (
    { ...smoothWater(f), properties: { rank: number(f.properties?.scalerank, 5) } }))
  const stateOf = (countyId: unknown) => String(countyId).slice(0, 2)
  const line = { buffer: 64, tolerance: 3 }
  const point = { buffer: 256, tolerance: 0 }
  return {
    land: { data: feature(s.world, land), fromZoom: 0, ...line },
    shore: { data: lines(withoutSheetEdge(mesh(s.world, land))), fromZoom: 2, ...line },
    lakes: { data: collection(lakes), fromZoom: 1, ...line, shows: (p, z) => number(p.rank, 5) <= z + 2 },
    rivers: { data: collection(rivers), fromZoom: 2, ...line, shows: (p, z) => number(p.from, 5) <= z + 1.5 },
    borders: { data: lines(mesh(s.world, countries, (a, b) => a !== b)), fromZoom: 0, ...line },
    states: { data: lines(mesh(s.unitedStates, states, (a, b) => a !== b)), fromZoom: 3, ...line },
    counties: { data: lines(mesh(s.unitedStates, counties, (a, b) => a !== b && stateOf(a.id) === stateOf(b.id))), fromZoom: 6, ...line },
    names: { data: collection(names), fromZoom: 1, ...point },
    places: {
      data: collection(placeFeatures(s.cities, 2, maxZoom)), fromZoom: 2, ...point,
      shows: (p, z) => number(p.from, maxZoom) <= z || z === maxZoom,
    },
  }
}
