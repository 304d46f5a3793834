import type { ExpressionSpecification, LayerSpecification } from 'maplibre-gl'
import { CLASS_COLOURS, type Theme } from '../class-colours'
import { byZoom, match } from './expressions'
import { REGULAR, SEMIBOLD } from './fonts'
import { markOffset } from './lanes'
import { PALETTES } from './palette'

export const SPLICES = 'splices'
/** Layers that answer to the pointer. */
export const SPLICE_LAYER = 'splice-marks'
export const CLUSTER_LAYER = 'splice-clusters'

const source = SPLICES
const MARK_SIZE_STOPS = [5, 0.72, 9, 0.85, 12, 1, 16, 1.25] as const
const markSize = byZoom(...MARK_SIZE_STOPS)

function markSizeAt(zoom: number): number {
  const stops = Array.from({ length: MARK_SIZE_STOPS.length / 2 }, (_, i) => [MARK_SIZE_STOPS[2 * i] ?? 0, MARK_SIZE_STOPS[2 * i + 1] ?? 1] as const)
  const next = stops.findIndex(([z]) => z >= zoom)
  const [z1, size1] = stops[next < 0 ? stops.length - 1 : next] ?? [0, 1]
  const [z0, size0] = stops[Math.max(0, next - 1)] ?? [0, 1]
  return next <= 0 ? size1 : size0 + ((size1 - size0) * (zoom - z0)) / (z1 - z0)
}

const upRight = (em: number): ExpressionSpecification => ['literal', [em, -em]]
const downRight = (em: number): ExpressionSpecification => ['literal', [em, em]]
const ringSize: ExpressionSpecification = ['step', ['get', 'total'], 's', 10, 'm', 100, 'l', 1000, 'xl']
/** Clear of the ring's middle, whatever its size. */
const beside = (way: (em: number) => ExpressionSpecification): ExpressionSpecification => match(ringSize, { s: way(1.05), m: way(1.3), l: way(1.6) }, way(1.9))
const worstOnTop: ExpressionSpecification = ['+', ['*', ['get', 'rank'], 10_000_000], ['coalesce', ['get', 'total'], 0]]

/** Rings where splices stand too close to be told apart, marks where they can be; the worst is drawn last. Names keep clear of all. */
export function spliceLayers(theme: Theme): LayerSpecification[] {
  const c = PALETTES[theme]
  const colours = CLASS_COLOURS[theme]
  const always = { 'icon-allow-overlap': true, 'icon-ignore-placement': false } as const
  const over = { 'text-allow-overlap': true, 'text-ignore-placement': true } as const
  const badge = (cls: 'urgent' | 'critical', offset: ExpressionSpecification): LayerSpecification => ({
    id: `splice-${cls}-counts`, type: 'symbol', source, 'source-layer': 'clusters', filter: ['>', ['get', cls], 0],
    layout: {
      ...always, ...over, 'symbol-sort-key': worstOnTop, 'icon-image': `badge:${theme}:${cls}`,
      'icon-text-fit': 'both', 'icon-text-fit-padding': [0, 3.5, 0.5, 3.5], 'text-field': ['to-string', ['get', cls]], 'text-font': SEMIBOLD,
      'text-size': byZoom(4, 9.5, 10, 11), 'icon-padding': 0, 'text-offset': offset,
    },
    paint: { 'text-color': colours[cls].onFill },
  })
  return [
    {
      id: 'splice-names', type: 'symbol', source, 'source-layer': 'splices', minzoom: 12.5,
      filter: ['any', ['>=', ['get', 'rank'], 4], ['>=', ['zoom'], 14]],
      layout: {
        'symbol-sort-key': ['-', 0, ['get', 'rank']], 'text-field': ['get', 'name'], 'text-size': byZoom(12.5, 10, 16, 12),
        'text-font': match(['get', 'class'], { urgent: ['literal', SEMIBOLD], critical: ['literal', SEMIBOLD] }, ['literal', REGULAR]),
        'text-variable-anchor-offset': ['case', ['has', 'across'],
          ['literal', ['top', [0, 1.6], 'bottom', [0, -1.6]]], ['literal', ['left', [1.6, 0], 'right', [-1.6, 0]]]],
        'text-justify': 'auto', 'text-padding': 3,
      },
      paint: { 'text-color': c.ink, 'text-halo-color': c.halo, 'text-halo-width': 1.8 },
    },
    {
      id: CLUSTER_LAYER, type: 'symbol', source, 'source-layer': 'clusters',
      layout: {
        ...always, ...over, 'symbol-sort-key': worstOnTop, 'icon-image': ['concat', `ring:${theme}:`, ringSize, ':', ['get', 'mix']],
        'icon-size': byZoom(4, 0.78, 8, 0.92, 11, 1), 'icon-padding': 0,
        'text-field': ['case', ['<', ['get', 'total'], 10_000], ['to-string', ['get', 'total']],
          ['concat', ['to-string', ['round', ['/', ['get', 'total'], 1000]]], 'k']],
        'text-font': REGULAR, 'text-size': byZoom(4, 9.5, 10, 11),
      },
      paint: { 'text-color': c.ringText },
    },
    // Each class its own number in its own colour: urgent above, or below where critical stands above.
    badge('urgent', ['case', ['>', ['get', 'critical'], 0], beside(downRight), beside(upRight)]), badge('critical', beside(upRight)),
    {
      id: SPLICE_LAYER, type: 'symbol', source, 'source-layer': 'splices',
      layout: {
        ...always, 'symbol-sort-key': ['get', 'rank'], 'icon-image': ['concat', `mark:${theme}:`, ['get', 'class'], ['case', ['has', 'past'], ':past', '']], 'icon-size': markSize,
        'icon-offset': markOffset(markSizeAt), 'icon-padding': 0,
      },
    },
  ]
}
