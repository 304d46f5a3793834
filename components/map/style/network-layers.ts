import type { ExpressionSpecification, LayerSpecification } from 'maplibre-gl'
import { CLASS_COLOURS, type Theme } from '../class-colours'
import { byScale, byVoltage, byZoom, match } from './expressions'
import { REGULAR, SEMIBOLD } from './fonts'
import { laneOffset } from './lanes'
import { PALETTES } from './palette'

export const CIRCUITS = 'circuits'
const source = CIRCUITS
const OFF_OPACITY = 0.28

const width = (more = 0): ExpressionSpecification => byZoom(
  4, byVoltage(0.8, 1.3, 2, more * 0.6), 7, byVoltage(1.2, 2, 3.2, more * 0.8), 10, byVoltage(1.3, 2.2, 3.8, more),
  14, byVoltage(1.6, 2.6, 4.4, more), 18, byVoltage(2.2, 3.4, 5.4, more))
const shown: ExpressionSpecification = ['case', ['has', 'off'], OFF_OPACITY, 1]
const round = { 'line-cap': 'round', 'line-join': 'round' } as const

/** Right-of-way and lines, lowest first. */
export function lineLayers(theme: Theme): LayerSpecification[] {
  const c = PALETTES[theme]
  const worst = match(['get', 'worst'], Object.fromEntries(Object.entries(CLASS_COLOURS[theme]).map(([cls, k]) => [cls, k.fill])), c.line)
  const bandWidth = byScale(11, ['/', ['get', 'px20'], 512], 20, ['get', 'px20'])
  return [
    {
      id: 'right-of-way', type: 'line', source, 'source-layer': 'right_of_way', minzoom: 11.5, layout: round,
      paint: { 'line-color': c.band, 'line-width': bandWidth, 'line-opacity': byZoom(11.5, 0, 12.5, 1) },
    },
    {
      id: 'right-of-way-edge', type: 'line', source, 'source-layer': 'right_of_way', minzoom: 12.5, layout: { 'line-join': 'round' },
      paint: { 'line-color': c.bandEdge, 'line-gap-width': bandWidth, 'line-width': 1, 'line-opacity': byZoom(12.5, 0, 13.5, 1) },
    },
    {
      id: 'circuit-casing', type: 'line', source, 'source-layer': 'circuits', maxzoom: 13, layout: round,
      paint: { 'line-color': c.halo, 'line-width': width(2.6), 'line-offset': laneOffset, 'line-opacity': byZoom(11.5, 1, 13, 0) },
    },
    {
      id: 'circuit-selected', type: 'line', source, 'source-layer': 'circuits', filter: ['==', ['id'], -1], layout: round,
      paint: { 'line-color': c.ink, 'line-width': width(7), 'line-offset': laneOffset },
    },
    {
      id: 'circuit-selected-halo', type: 'line', source, 'source-layer': 'circuits', filter: ['==', ['id'], -1], layout: round,
      paint: { 'line-color': c.paper, 'line-width': width(3.4), 'line-offset': laneOffset },
    },
    {
      id: 'circuit', type: 'line', source, 'source-layer': 'circuits', layout: round,
      paint: { 'line-color': byZoom(8.3, worst, 9.3, c.line), 'line-width': width(), 'line-offset': laneOffset, 'line-opacity': shown },
    },
    {
      id: 'arms-casing', type: 'line', source, 'source-layer': 'arms', minzoom: 16, layout: { 'line-cap': 'round' },
      paint: { 'line-color': c.halo, 'line-width': 4 },
    },
    { id: 'arms', type: 'line', source, 'source-layer': 'arms', minzoom: 16, paint: { 'line-color': c.structure, 'line-width': 2 } },
    {
      id: 'circuit-touch', type: 'line', source, 'source-layer': 'circuits', layout: round,
      paint: { 'line-color': '#000000', 'line-opacity': 0, 'line-width': width(9), 'line-offset': laneOffset },
    },
  ]
}

/** Anchors of a text beside its point, em: far enough from the line that a slanting one does not run into the words. */
const ANCHORS = {
  N: ['bottom', [0, -1.5]], NE: ['bottom-left', [1.1, -1]], E: ['left', [1.8, 0]], SE: ['top-left', [1.1, 1]],
  S: ['top', [0, 1.5]], SW: ['top-right', [-1.1, 1]], W: ['right', [-1.8, 0]], NW: ['bottom-right', [-1.1, -1]],
} as const
const anchors = (...sides: (keyof typeof ANCHORS)[]) => ['literal', sides.flatMap((s) => [...ANCHORS[s]])]
const steps = (input: unknown, ...stops: unknown[]) => ['step', input, ...stops] as unknown as ExpressionSpecification

/** By the bearing (degrees) to the side that is free. */
const OUTER_SIDE = steps(['get', 'out'], anchors('N'), 12, anchors('NE', 'E'), 67.5, anchors('E', 'NE', 'SE'), 112.5, anchors('SE', 'E'),
  168, anchors('S'), 192, anchors('SW', 'W'), 247.5, anchors('W', 'SW', 'NW'), 292.5, anchors('NW', 'W'), 348, anchors('N'))
/** By the bearing square to the line, of its two the one from 0 to 180. */
const EITHER_SIDE = steps(['%', ['+', ['get', 'angle'], 270], 180], anchors('N', 'S'), 12, anchors('NE', 'SW'), 67.5, anchors('E', 'W'),
  112.5, anchors('SE', 'NW'), 168, anchors('N', 'S'))

/** Names of circuits: each of two on the same structures on its own side. */
function circuitNames(theme: Theme, id: string, zooms: { minzoom: number; maxzoom?: number }): LayerSpecification {
  const c = PALETTES[theme]
  return {
    id, type: 'symbol', source, 'source-layer': 'circuit_names', ...zooms, filter: ['<=', ['get', 'from'], ['zoom']],
    layout: {
      'text-field': ['step', ['zoom'], ['get', 'short'], 12, ['get', 'label']], 'text-font': SEMIBOLD, 'text-size': byZoom(6, 9.5, 12, 11.5),
      'text-variable-anchor-offset': ['case', ['has', 'out'], OUTER_SIDE, EITHER_SIDE],
      'text-justify': 'auto', 'text-padding': 3, 'symbol-sort-key': ['get', 'from'], 'text-letter-spacing': 0.02,
    },
    paint: { 'text-halo-color': c.halo, 'text-halo-width': 1.8, 'text-color': c.lineName, 'text-opacity': shown },
  }
}

/** Where a structure's number may stand, em: close by, and where splices crowd its place, farther off the line on a slant. */
const NUMBER_BESIDE_LEVEL = ['bottom', [0, -0.8], 'top', [0, 0.8], 'bottom-left', [0.9, -1.6], 'top-right', [-0.9, 1.6], 'bottom-right', [-0.9, -1.6], 'top-left', [0.9, 1.6]]
const NUMBER_BESIDE_STEEP = ['left', [0.9, 0], 'right', [-0.9, 0], 'top-left', [1.6, 0.7], 'bottom-right', [-1.6, -0.7], 'bottom-left', [1.6, -0.7], 'top-right', [-1.6, 0.7]]

/** Nearer than this a structure's number says more than the name of its line. */
const NUMBERS_FIRST_ZOOM = 14

/** Structures, crossings and the names of lines. */
export function networkNameLayers(theme: Theme): LayerSpecification[] {
  const c = PALETTES[theme]
  const halo = { 'text-halo-color': c.halo, 'text-halo-width': 1.6 }
  const isEnd: ExpressionSpecification = ['in', 'dead', ['downcase', ['coalesce', ['get', 'type'], '']]]
  return [
    {
      id: 'crossings', type: 'symbol', source, 'source-layer': 'crossings', minzoom: 10.5,
      layout: {
        'icon-image': ['concat', `crossing:${theme}:`, ['get', 'kind']], 'icon-rotate': ['get', 'angle'], 'icon-rotation-alignment': 'map',
        'icon-size': byZoom(10.5, 0.45, 13, 0.8, 16, 1.2), 'icon-allow-overlap': true, 'icon-ignore-placement': true,
      },
    },
    {
      id: 'structures', type: 'symbol', source, 'source-layer': 'structures', minzoom: 11,
      layout: {
        'icon-image': ['concat', `structure:${theme}:`, ['case', isEnd, 'end', 'tangent'], ['case', ['has', 'circuits'], '-wide', '']],
        'icon-rotate': ['get', 'angle'],
        'icon-rotation-alignment': 'map', 'icon-size': byZoom(11, 0.4, 12.5, 0.6, 14, 0.85, 18, 1.5), 'icon-allow-overlap': true,
        'icon-ignore-placement': true,
      },
      paint: { 'icon-opacity': byZoom(11, 0, 12, 1) },
    },
    circuitNames(theme, 'circuit-names-near', { minzoom: NUMBERS_FIRST_ZOOM }),
    {
      id: 'structure-names', type: 'symbol', source, 'source-layer': 'structures', minzoom: 11,
      layout: {
        'text-field': ['get', 'label'], 'text-font': REGULAR, 'text-size': byZoom(11, 9.5, 15, 12),
        'text-padding': byZoom(11, 14, 13, 6, 15, 2),
        'text-variable-anchor-offset': ['case', ['>', ['abs', ['get', 'angle']], 45],
          ['literal', NUMBER_BESIDE_LEVEL], ['literal', NUMBER_BESIDE_STEEP]],
        'text-justify': 'auto', 'symbol-sort-key': ['case', isEnd, 0, 1],
      },
      paint: { ...halo, 'text-color': c.structureName },
    },
    circuitNames(theme, 'circuit-names', { minzoom: 6, maxzoom: NUMBERS_FIRST_ZOOM }),
    {
      id: 'crossing-names', type: 'symbol', source, 'source-layer': 'crossings', minzoom: 12, filter: ['has', 'name'],
      layout: {
        'text-field': ['get', 'name'], 'text-font': REGULAR, 'text-size': byZoom(12, 10, 15, 12), 'text-max-width': 9,
        'text-variable-anchor': ['left', 'right', 'bottom', 'top'], 'text-radial-offset': 1.7, 'text-justify': 'auto',
        'text-letter-spacing': 0.03,
      },
      paint: { ...halo, 'text-color': match(['get', 'kind'], { river: c.crossingWater }, c.crossingWay) },
    },
  ]
}
