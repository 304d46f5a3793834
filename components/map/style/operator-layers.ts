import type { ExpressionSpecification, LayerSpecification } from 'maplibre-gl'
import type { Theme } from '../class-colours'
import { BASE } from './base-layers'
import { byZoom, match } from './expressions'
import { REGULAR, SEMIBOLD } from './fonts'
import { PALETTES, type Palette } from './palette'

/** Where each kind of ground stands in a known layout of vector tiles; filters in that layout's own words. */
interface Layout {
  land?: string
  water: string
  waterway?: string
  green: string[]
  roads: { layer: string; kind: string; main: string[]; other: string[] }
  rail: string[]
  buildings: string
  boundaries: { layer: string; level: string; country: number | string }
  places: { layer: string; kind: string; large: string[]; small: string[] }
}

const PROTOMAPS: Layout = {
  land: 'earth', water: 'water', green: ['landcover'],
  roads: { layer: 'roads', kind: 'kind', main: ['highway', 'major_road'], other: ['minor_road', 'medium_road'] }, rail: ['rail'],
  buildings: 'buildings', boundaries: { layer: 'boundaries', level: 'kind', country: 'country' },
  places: { layer: 'places', kind: 'kind_detail', large: ['city'], small: ['town', 'village', 'hamlet', 'locality'] },
}

const OPENMAPTILES: Layout = {
  water: 'water', waterway: 'waterway', green: ['landcover', 'park'],
  roads: {
    layer: 'transportation', kind: 'class', main: ['motorway', 'trunk', 'primary'], other: ['secondary', 'tertiary', 'minor', 'service'],
  },
  rail: ['rail'], buildings: 'building', boundaries: { layer: 'boundary', level: 'admin_level', country: 2 },
  places: { layer: 'place', kind: 'class', large: ['city'], small: ['town', 'village', 'hamlet'] },
}

/** The layout of an archive by the names of its layers; undefined where it is none that we can draw. */
function layoutOf(layerNames: string[]): Layout | undefined {
  if (layerNames.includes('earth')) return PROTOMAPS
  return layerNames.includes('transportation') ? OPENMAPTILES : undefined
}

const source = BASE

function groundLayers(l: Layout, c: Palette): LayerSpecification[] {
  const { roads, boundaries } = l
  const road = (id: string, kinds: string[], minzoom: number, thin: number, thick: number): LayerSpecification => ({
    id, type: 'line', source, 'source-layer': roads.layer, minzoom, filter: ['in', ['get', roads.kind], ['literal', kinds]],
    layout: { 'line-cap': 'round', 'line-join': 'round' },
    paint: { 'line-color': c.stateLine, 'line-width': byZoom(minzoom, thin, 16, thick), 'line-opacity': 0.8 },
  })
  return [
    { id: 'base-ground', type: 'background', paint: { 'background-color': l.land ? c.water : c.land } },
    ...(l.land ? [{ id: 'base-land', type: 'fill' as const, source, 'source-layer': l.land, paint: { 'fill-color': c.land } }] : []),
    ...l.green.map((layer): LayerSpecification => (
      { id: `base-${layer}`, type: 'fill', source, 'source-layer': layer, paint: { 'fill-color': c.band, 'fill-opacity': 0.5 } })),
    {
      id: 'base-water', type: 'fill', source, 'source-layer': l.water, filter: ['==', ['geometry-type'], 'Polygon'],
      paint: { 'fill-color': c.water, 'fill-outline-color': c.shore },
    },
    {
      id: 'base-waterway', type: 'line', source, 'source-layer': l.waterway ?? l.water, filter: ['==', ['geometry-type'], 'LineString'],
      paint: { 'line-color': c.river, 'line-width': byZoom(8, 0.8, 15, 2.4) },
    },
    {
      id: 'base-buildings', type: 'fill', source, 'source-layer': l.buildings, minzoom: 14,
      paint: { 'fill-color': c.bandEdge, 'fill-opacity': 0.6 },
    },
    road('base-roads-other', roads.other, 11, 0.5, 4),
    road('base-roads-main', roads.main, 6, 0.6, 6),
    { ...road('base-rail', l.rail, 9, 0.5, 1.4), id: 'base-rail' },
    {
      id: 'base-borders', type: 'line', source, 'source-layer': boundaries.layer,
      paint: {
        'line-color': ['case', ['==', ['get', boundaries.level], boundaries.country], c.border, c.stateLine],
        'line-width': byZoom(3, 0.6, 9, 1.4),
      },
    },
  ]
}

function nameLayers({ places }: Layout, c: Palette): LayerSpecification[] {
  const whereLarge = (value: ExpressionSpecification | number) => Object.fromEntries(places.large.map((k) => [k, value]))
  const known = ['in', ['get', places.kind], ['literal', [...places.large, ...places.small]]] as const
  return [{
    id: 'base-places', type: 'symbol', source, 'source-layer': places.layer, filter: known as unknown as ['in', string, string],
    layout: {
      'text-field': ['coalesce', ['get', 'name:en'], ['get', 'name'], ''], 'text-max-width': 8, 'text-padding': 4,
      'text-font': match(['get', places.kind], whereLarge(['literal', SEMIBOLD]), ['literal', REGULAR]),
      'text-size': byZoom(5, match(['get', places.kind], whereLarge(12), 9), 12, match(['get', places.kind], whereLarge(16), 13)),
    },
    paint: { 'text-color': c.town, 'text-halo-color': c.halo, 'text-halo-width': 1.4 },
  }]
}

export interface OperatorLayers { ground: LayerSpecification[]; names: LayerSpecification[] }

/** Muted layers over an operator's own vector tiles (the two common OpenStreetMap layouts); undefined for an unknown layout. */
export function operatorLayers(layerNames: string[], theme: Theme): OperatorLayers | undefined {
  const layout = layoutOf(layerNames)
  if (!layout) return undefined
  const c = PALETTES[theme]
  const there = (l: LayerSpecification) => !('source-layer' in l) || layerNames.includes(l['source-layer'] ?? '')
  return { ground: groundLayers(layout, c).filter(there), names: nameLayers(layout, c).filter(there) }
}
