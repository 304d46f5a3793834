import type { LayerSpecification } from 'maplibre-gl'
import { CLASS_COLOURS, type Theme } from '../class-colours'
import { byZoom, match } from './expressions'
import { REGULAR, SEMIBOLD } from './fonts'
import { PALETTES } from './palette'

export const SELECTED = 'selected'
export const PLACEMENT = 'placement'
export const GRATICULE = 'graticule'
export const FOUND = 'found'
export const UNSETTLED = 'unsettled'
/** The layer that is pressed. */
export const UNSETTLED_LAYER = 'unsettled-marks'

/** Beneath everything of the network. */
export function graticuleLayers(theme: Theme): LayerSpecification[] {
  const c = PALETTES[theme]
  return [
    { id: 'graticule', type: 'line', source: GRATICULE, paint: { 'line-color': c.countyLine, 'line-width': 1 } },
    {
      id: 'graticule-names', type: 'symbol', source: GRATICULE,
      layout: {
        'symbol-placement': 'line', 'text-field': ['get', 'name'], 'text-font': REGULAR, 'text-size': 10, 'symbol-spacing': 640,
        'text-offset': [0, -0.7], 'text-letter-spacing': 0.05,
      },
      paint: { 'text-color': c.country, 'text-opacity': 0.75, 'text-halo-color': c.land, 'text-halo-width': 1 },
    },
  ]
}

/**
 * Selection: an ink ring with a paper halo. Placement: the raw position's accuracy and its ties to the candidates. Found: four corners in
 * ink, which no class has, and what was looked for. Unsettled: the mark of its class in a ring of paper, with a question mark, for it is
 * nobody's yet.
 */
export function overlayLayers(theme: Theme): LayerSpecification[] {
  const { ink, paper } = PALETTES[theme]
  const colours = CLASS_COLOURS[theme]
  const ofClass = match(['get', 'class'], { critical: colours.critical.fill, urgent: colours.urgent.fill }, ink)
  const ring = { 'circle-radius': 16, 'circle-opacity': 0 }
  // Far out it would lie on the number of the ring that it is in; a ring's badges stand on its right.
  const asideFar = byZoom(9.5, ['literal', [-21, -17]], 12, ['literal', [0, 0]])
  return [
    {
      id: 'placement-accuracy', type: 'fill', source: PLACEMENT, filter: ['==', ['geometry-type'], 'Polygon'],
      paint: { 'fill-color': ink, 'fill-opacity': 0.08 },
    },
    {
      id: 'placement-course', type: 'line', source: PLACEMENT, filter: ['==', ['get', 'kind'], 'course'],
      layout: { 'line-cap': 'round', 'line-join': 'round' }, paint: { 'line-color': ink, 'line-width': 16, 'line-opacity': 0.22 },
    },
    {
      id: 'placement-lines', type: 'line', source: PLACEMENT, filter: ['all', ['!=', ['geometry-type'], 'Point'], ['!=', ['get', 'kind'], 'course']],
      paint: { 'line-color': ink, 'line-width': 1.2, 'line-dasharray': [3, 2.5] },
    },
    {
      id: 'unsettled-rings', type: 'circle', source: UNSETTLED,
      paint: { 'circle-radius': 13, 'circle-color': paper, 'circle-stroke-width': 2, 'circle-stroke-color': ofClass, 'circle-translate': asideFar },
    },
    {
      id: UNSETTLED_LAYER, type: 'symbol', source: UNSETTLED,
      layout: {
        'icon-image': ['concat', `mark:${theme}:`, ['get', 'class']], 'icon-size': 0.72, 'icon-allow-overlap': true,
        'text-field': '?', 'text-font': SEMIBOLD, 'text-size': 13, 'text-offset': [-1.5, -0.9], 'text-allow-overlap': true,
      },
      paint: { 'text-color': ofClass, 'text-halo-color': paper, 'text-halo-width': 2, 'icon-translate': asideFar, 'text-translate': asideFar },
    },
    // What is selected may stand within a ring of several: it is drawn by itself, over its neighbours' numbers.
    { id: 'selected-halo', type: 'circle', source: SELECTED, paint: { ...ring, 'circle-color': paper, 'circle-opacity': 1, 'circle-stroke-color': paper, 'circle-stroke-width': 5.5 } },
    {
      id: 'selected-mark', type: 'symbol', source: SELECTED, filter: ['has', 'class'],
      layout: { 'icon-image': ['concat', `mark:${theme}:`, ['get', 'class'], ['case', ['has', 'past'], ':past', '']], 'icon-allow-overlap': true, 'icon-ignore-placement': true },
    },
    {
      id: 'selected-ring', type: 'circle', source: SELECTED,
      paint: { ...ring, 'circle-radius': 17.5, 'circle-stroke-color': ink, 'circle-stroke-width': 2.5 },
    },
    {
      id: 'found', type: 'symbol', source: FOUND,
      layout: {
        'icon-image': `found:${theme}`, 'icon-allow-overlap': true, 'icon-padding': 0, 'text-field': ['get', 'label'], 'text-font': SEMIBOLD,
        'text-size': 12, 'text-optional': false, 'text-allow-overlap': true, 'text-variable-anchor': ['bottom', 'top'],
        'text-radial-offset': 1.5, 'text-padding': 4,
      },
      paint: { 'text-color': ink, 'text-halo-color': paper, 'text-halo-width': 2 },
    },
  ]
}
