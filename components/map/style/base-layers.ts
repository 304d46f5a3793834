import type { LayerSpecification } from 'maplibre-gl'
import type { Theme } from '../class-colours'
import { byZoom } from './expressions'
import { REGULAR, SEMIBOLD } from './fonts'
import { PALETTES } from './palette'

export const BASE = 'base'
/** What shows where no land is drawn, and also before any is. */
export const BASE_SEA = 'base-sea'
/** The embedded basemap's last zoom; it is drawn for about two zooms more before it runs out of detail. */
export const BASE_DETAIL_ENDS = 9

const source = BASE
const anchors: ('center' | 'top' | 'bottom' | 'left' | 'right')[] = ['top', 'bottom', 'left', 'right', 'center']

/** Land, water, borders and names of the embedded basemap; layers and properties as lib/tiles/basemap writes them. */
export function embeddedBaseLayers(theme: Theme): LayerSpecification[] {
  const c = PALETTES[theme]
  return [
    { id: BASE_SEA, type: 'background', paint: { 'background-color': c.water } },
    { id: 'base-land', type: 'fill', source, 'source-layer': 'land', paint: { 'fill-color': c.land } },
    {
      id: 'base-counties', type: 'line', source, 'source-layer': 'counties', minzoom: 7,
      paint: { 'line-color': c.countyLine, 'line-width': byZoom(7, 0.5, 10, 1), 'line-opacity': byZoom(7, 0, 7.6, 1) },
    },
    {
      id: 'base-shore', type: 'line', source, 'source-layer': 'shore',
      paint: { 'line-color': c.shore, 'line-width': byZoom(2, 0.4, 8, 1.1) },
    },
    {
      id: 'base-rivers', type: 'line', source, 'source-layer': 'rivers', layout: { 'line-cap': 'round', 'line-join': 'round' },
      paint: {
        'line-color': c.river,
        'line-width': byZoom(3, ['*', 1.2, ['get', 'weight']], 7, ['+', 0.7, ['*', 1.6, ['get', 'weight']]],
          11, ['+', 1.4, ['*', 3, ['get', 'weight']]]),
      },
    },
    { id: 'base-lakes', type: 'fill', source, 'source-layer': 'lakes', paint: { 'fill-color': c.water, 'fill-outline-color': c.shore } },
    {
      id: 'base-states', type: 'line', source, 'source-layer': 'states', layout: { 'line-join': 'round' },
      paint: { 'line-color': c.stateLine, 'line-width': byZoom(3, 0.5, 6, 0.9, 9, 1.4), 'line-dasharray': [5, 2.5] },
    },
    {
      id: 'base-borders', type: 'line', source, 'source-layer': 'borders', layout: { 'line-join': 'round' },
      paint: { 'line-color': c.border, 'line-width': byZoom(2, 0.5, 6, 1.1, 9, 1.8) },
    },
  ]
}

/** Names go above the network's lines and below its marks. */
export function embeddedNameLayers(theme: Theme): LayerSpecification[] {
  const c = PALETTES[theme]
  const halo = { 'text-halo-color': c.halo, 'text-halo-width': 1.4 }
  return [
    {
      id: 'base-lake-names', type: 'symbol', source, 'source-layer': 'names', minzoom: 6,
      filter: ['all', ['==', ['get', 'kind'], 'lake'], ['>', ['*', ['get', 'size'], ['^', 4, ['zoom']]], 600]],
      layout: {
        'text-field': ['get', 'name'], 'text-font': REGULAR, 'text-size': byZoom(6.5, 10, 10, 12.5), 'text-max-width': 6,
        'text-letter-spacing': 0.04,
      },
      paint: { 'text-color': c.waterName, 'text-halo-color': c.water, 'text-halo-width': 1 },
    },
    {
      id: 'base-places', type: 'symbol', source, 'source-layer': 'places', minzoom: 3,
      filter: ['<=', ['get', 'from'], ['+', ['zoom'], 0.4]],
      layout: {
        'text-field': ['get', 'name'], 'text-font': ['step', ['get', 'pop'], ['literal', REGULAR], 60_000, ['literal', SEMIBOLD]],
        'text-size': byZoom(4, ['step', ['get', 'pop'], 9.5, 200_000, 11, 1_000_000, 12.5],
          9, ['step', ['get', 'pop'], 11, 10_000, 12.5, 60_000, 14, 500_000, 16],
          12, ['step', ['get', 'pop'], 12.5, 10_000, 14, 60_000, 16]),
        'symbol-sort-key': ['-', 0, ['get', 'pop']], 'text-padding': 3, 'text-max-width': 8, 'text-variable-anchor': anchors,
        'text-radial-offset': 0.55, 'text-justify': 'auto', 'icon-image': `place:${theme}`, 'icon-optional': false, 'icon-padding': 1,
        'icon-size': byZoom(4, 0.7, 9, 1),
      },
      paint: { ...halo, 'text-color': ['step', ['get', 'pop'], c.town, 60_000, c.city] },
    },
    {
      id: 'base-region-names', type: 'symbol', source, 'source-layer': 'names', minzoom: 1.5, maxzoom: 8.5,
      filter: ['any',
        ['all', ['==', ['get', 'kind'], 'country'], ['<', ['zoom'], 6], ['>', ['*', ['get', 'size'], ['^', 4, ['zoom']]], 4000]],
        ['all', ['==', ['get', 'kind'], 'state'], ['>=', ['zoom'], 4], ['>', ['*', ['get', 'size'], ['^', 4, ['zoom']]], 5000]]],
      layout: {
        'text-field': ['upcase', ['get', 'name']], 'text-font': REGULAR, 'text-letter-spacing': 0.18, 'text-max-width': 7,
        'text-padding': 6,
        'text-size': byZoom(2, 9, 5, ['match', ['get', 'kind'], 'country', 12, 9.5], 8, ['match', ['get', 'kind'], 'country', 15, 12]),
        'symbol-sort-key': ['-', 0, ['get', 'size']],
      },
      paint: { ...halo, 'text-color': c.country, 'text-opacity': byZoom(7.4, 1, 8.4, 0) },
    },
  ]
}
