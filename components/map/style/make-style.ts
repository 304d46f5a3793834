import type { SourceSpecification, StyleSpecification } from 'maplibre-gl'
import { filterToQuery, type SpliceFilter } from '@/lib/contract/filter'
import { surveyFilterToQuery, type SurveyFilter } from '@/lib/contract/survey-layer'
import type { Theme } from '../class-colours'
import { BASE, embeddedBaseLayers, embeddedNameLayers } from './base-layers'
import { fontFaces } from './fonts'
import { CIRCUITS, lineLayers, networkNameLayers } from './network-layers'
import { FOUND, GRATICULE, graticuleLayers, overlayLayers, PLACEMENT, SELECTED, UNSETTLED } from './overlay-layers'
import { SPLICES, spliceLayers } from './splice-layers'
import { SURVEY, surveyLayers, TRACKS } from './survey-layers'

/** What lies beneath the network: a style of its own, to which ours is added. */
export interface Basemap {
  style: StyleSpecification
  /** Ids of the style's layers that belong above the network's lines: names. */
  above: Set<string>
}

/** Tiles of one filter at one state of the store; a new version is a new address, so that nothing old is drawn. */
export function tilePath(layer: 'splices' | 'circuits', filter: SpliceFilter, dataVersion: number): string {
  // Circuits know no class and no phase: leaving those out keeps their tiles while people filter.
  const kept = layer === 'circuits' ? { circuitIds: filter.circuitIds, voltagesKv: filter.voltagesKv } : filter
  const query = [filterToQuery(kept), `v=${dataVersion}`].filter(Boolean).join('&')
  return `/tiles/${layer}/{z}/{x}/{y}?${query}`
}

export const surveyPath = (filter: SurveyFilter, dataVersion: number): string =>
  `/tiles/survey/{z}/{x}/{y}?${[surveyFilterToQuery(filter), `v=${dataVersion}`].filter(Boolean).join('&')}`

export const trackPath = (surveyIds: readonly number[], dataVersion: number): string => `/tiles/tracks/{z}/{x}/{y}?survey=${surveyIds.join(',')}&v=${dataVersion}`

/** Its attribution travels in the archive. */
export function embeddedBasemap(origin: string, theme: Theme): Basemap {
  const names = embeddedNameLayers(theme)
  return {
    style: {
      version: 8,
      sources: { [BASE]: { type: 'vector', url: `pmtiles://${origin}/basemap.pmtiles` } },
      layers: [...embeddedBaseLayers(theme), ...names],
    },
    above: new Set(names.map((l) => l.id)),
  }
}

export interface NetworkStyle {
  origin: string
  theme: Theme
  filter: SpliceFilter
  dataVersion: number
  /** That surveys are dated against, UTC. */
  nowYear: number
}

const NOTHING: SourceSpecification = { type: 'geojson', data: { type: 'FeatureCollection', features: [] } }

/** The basemap with the network in it: ground, lines, names, marks, selection. */
export function networkStyle(basemap: Basemap, { origin, theme, filter, dataVersion, nowYear }: NetworkStyle): StyleSpecification {
  const { style, above } = basemap
  const tiles = (path: string, maxzoom: number): SourceSpecification => ({ type: 'vector', tiles: [origin + path], minzoom: 0, maxzoom })
  return {
    ...style,
    'font-faces': { ...style['font-faces'], ...fontFaces(origin) },
    transition: { duration: 0, delay: 0 },
    sources: {
      ...style.sources, [GRATICULE]: NOTHING, [CIRCUITS]: tiles(tilePath('circuits', filter, dataVersion), 16), [SPLICES]: tiles(tilePath('splices', filter, dataVersion), 18),
      [SURVEY]: tiles(surveyPath({}, dataVersion), 16), [TRACKS]: tiles(trackPath([], dataVersion), 16),
      [SELECTED]: NOTHING, [PLACEMENT]: NOTHING, [FOUND]: NOTHING, [UNSETTLED]: NOTHING,
    },
    layers: [
      ...style.layers.filter((l) => !above.has(l.id)), ...graticuleLayers(theme), ...lineLayers(theme), ...surveyLayers(theme, nowYear),
      ...style.layers.filter((l) => above.has(l.id)), ...networkNameLayers(theme), ...spliceLayers(theme), ...overlayLayers(theme),
    ],
  }
}
