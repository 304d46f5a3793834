import type { ExpressionSpecification, FilterSpecification, LayerSpecification, LineLayerSpecification } from 'maplibre-gl'
import type { Theme } from '../class-colours'
import { stepStarts, SURVEY_COLOURS } from '../survey-steps'
import { byZoom } from './expressions'
import { REGULAR } from './fonts'
import { laneOffset, phaseOffset } from './lanes'
import { PALETTES } from './palette'

export const SURVEY = 'survey'
export const TRACKS = 'tracks'
/** What answers to the pointer: spans, from where they are told apart. */
export const SPAN_TOUCH = 'survey-span-touch'
export const TRACK_TOUCH = 'track-touch'

/** Tiles from afar join what is alike, from 11 on they have spans, from 14 on a line a phase. */
const SPANS_FROM_ZOOM = 11
const PHASES_FROM_ZOOM = 14
const HIDDEN = { visibility: 'none' } as const
const IS = (state: string): ExpressionSpecification => ['==', ['get', 'state'], state]

/** Colour by the year of the last look. */
function byYear(theme: Theme, nowYear: number): ExpressionSpecification {
  const colours = SURVEY_COLOURS[theme]
  const starts = stepStarts(nowYear)
  return ['step', ['get', 'year'], colours[3], ...starts.map((start, i) => [start, colours[i]]).reverse().flat()] as unknown as ExpressionSpecification
}

interface Drawn { of: string; zooms: { minzoom?: number; maxzoom?: number }; offset: ExpressionSpecification; px: readonly [far: number, near: number] }

const DRAWN: readonly Drawn[] = [
  { of: 'stretches', zooms: { maxzoom: SPANS_FROM_ZOOM }, offset: laneOffset, px: [3.2, 4.6] },
  { of: 'spans', zooms: { minzoom: SPANS_FROM_ZOOM, maxzoom: PHASES_FROM_ZOOM }, offset: laneOffset, px: [4.6, 5.4] },
  { of: 'phases', zooms: { minzoom: PHASES_FROM_ZOOM }, offset: phaseOffset, px: [2.4, 3.4] },
]

/**
 * Filled by year: every phase was looked at. Dashed: by a flight or patrol that wrote down its finds alone. A thread in a hollow line: only some phases.
 * Hollow: never. A thin grey line: in other years than those chosen.
 */
function lines(theme: Theme, nowYear: number, { of, zooms, offset, px: [far, near] }: Drawn): LayerSpecification[] {
  const c = PALETTES[theme]
  const colour = byYear(theme, nowYear)
  const wide = (more: number) => byZoom(zooms.minzoom ?? 4, far + more, zooms.maxzoom ?? 18, near + more)
  const line = (id: string, filter: FilterSpecification, paint: NonNullable<LineLayerSpecification['paint']>, cap: 'butt' | 'round' | 'square' = 'round'): LayerSpecification => ({
    id: `survey-${of}-${id}`, type: 'line', source: SURVEY, 'source-layer': of, ...zooms, filter,
    layout: { ...HIDDEN, 'line-cap': cap, 'line-join': 'round' }, paint: { 'line-offset': offset, ...paint },
  })
  const hollow: FilterSpecification = ['any', IS('never'), IS('part')]
  // Never is drawn wider than the rest, and from afar with ends of its own, so that a single span is a box that can be seen.
  const byState = (never: number, part: number) => byZoom(
    zooms.minzoom ?? 4, ['case', IS('never'), far + never, far + part], zooms.maxzoom ?? 18, ['case', IS('never'), near + never, near + part])
  const ends = of === 'stretches' ? 'square' : 'butt'
  const slim = of === 'phases'
  return [
    line('casing', ['!', IS('elsewhen')], { 'line-color': c.halo, 'line-width': wide(slim ? 1.2 : 2.6) }),
    line('elsewhen', IS('elsewhen'), { 'line-color': c.line, 'line-width': 1.4, 'line-opacity': 0.55 }),
    line('edge', hollow, { 'line-color': c.ink, 'line-width': slim ? wide(1) : byState(3.4, 1) }, ends),
    line('hollow', hollow, { 'line-color': c.paper, 'line-width': slim ? wide(-0.8) : byState(0.6, -1.2) }, ends),
    line('thread', IS('part'), { 'line-color': colour, 'line-width': slim ? 1.2 : 1.8 }, 'butt'),
    line('seen', ['all', IS('seen'), ['!', ['has', 'patrol']]], { 'line-color': colour, 'line-width': wide(0) }),
    line('patrol', ['all', IS('seen'), ['has', 'patrol']], { 'line-color': colour, 'line-width': wide(0), 'line-dasharray': [1.7, 0.9] }, 'butt'),
  ]
}

/** Drawn over the network's own lines and beneath its names; none is visible until the layer is asked for. */
export function surveyLayers(theme: Theme, nowYear: number): LayerSpecification[] {
  const c = PALETTES[theme]
  const round = { ...HIDDEN, 'line-cap': 'round', 'line-join': 'round' } as const
  // From afar a track lies on its line: it is drawn beside it, to the right of its way, until both have room.
  const aside = byZoom(9, 5.5, 13, 9, 15.5, 0)
  const track = { source: TRACKS, 'source-layer': 'tracks' } as const
  return [
    ...DRAWN.flatMap((drawn) => lines(theme, nowYear, drawn)),
    {
      id: SPAN_TOUCH, type: 'line', source: SURVEY, 'source-layer': 'spans', minzoom: SPANS_FROM_ZOOM, layout: round,
      paint: { 'line-color': '#000000', 'line-opacity': 0, 'line-width': 16, 'line-offset': laneOffset },
    },
    { id: 'survey-span-chosen', type: 'line', source: SURVEY, 'source-layer': 'spans', minzoom: SPANS_FROM_ZOOM, filter: ['==', ['id'], -1], layout: round,
      paint: { 'line-color': c.ink, 'line-gap-width': byZoom(11, 9, 15, 14), 'line-width': 2, 'line-offset': laneOffset } },
    { id: 'track-casing', type: 'line', ...track, layout: round, paint: { 'line-color': c.paper, 'line-width': 3.4, 'line-offset': aside, 'line-opacity': 0.85 } },
    { id: 'track-line', type: 'line', ...track, layout: round, paint: { 'line-color': c.ink, 'line-width': byZoom(5, 0.9, 12, 1.4), 'line-offset': aside } },
    {
      id: 'track-readings', type: 'circle', source: TRACKS, 'source-layer': 'readings', minzoom: 14.5, layout: HIDDEN,
      paint: { 'circle-radius': 2.4, 'circle-color': c.ink, 'circle-stroke-color': c.paper, 'circle-stroke-width': 1.2 },
    },
    {
      id: 'track-arrows', type: 'symbol', ...track, minzoom: 7,
      layout: {
        ...HIDDEN, 'symbol-placement': 'line', 'symbol-spacing': 70, 'icon-image': `arrow:${theme}`, 'icon-rotation-alignment': 'map',
        'icon-offset': ['interpolate', ['linear'], ['zoom'], 9, ['literal', [0, 5.5]], 13, ['literal', [0, 9]], 15.5, ['literal', [0, 0]]],
        'icon-allow-overlap': true, 'icon-ignore-placement': true, 'icon-keep-upright': false,
      },
    },
    {
      id: 'track-names', type: 'symbol', ...track, minzoom: 9,
      layout: {
        ...HIDDEN, 'symbol-placement': 'line', 'symbol-spacing': 420, 'text-field': ['case', ['!=', ['get', 'crew'], ''], ['get', 'crew'], ['get', 'survey']],
        'text-font': REGULAR, 'text-size': 11, 'text-offset': [0, 1.6], 'text-padding': 8,
      },
      paint: { 'text-color': c.ink, 'text-halo-color': c.halo, 'text-halo-width': 1.8 },
    },
    { id: TRACK_TOUCH, type: 'line', ...track, layout: round, paint: { 'line-color': '#000000', 'line-opacity': 0, 'line-width': 9, 'line-offset': aside } },
  ]
}
