'use client'
import { useEffect } from 'react'
import type { Map as MapLibreMap, VectorTileSource } from 'maplibre-gl'
import { onStyle } from './on-style'
import { surveyPath, trackPath } from './style/make-style'
import { CLUSTER_LAYER } from './style/splice-layers'
import { SURVEY, surveyLayers, TRACKS } from './style/survey-layers'
import type { SurveyOnMap } from './types'
import { useMissingTiles } from './use-missing-tiles'

const OURS = [SURVEY, TRACKS]
const LAYERS = surveyLayers('light', 0).map(({ id }) => id)

/**
 * Draws when the spans were last surveyed instead of lines and rings by condition: marks, and how many are urgent and critical, stay.
 * @returns whether its tiles could not be had, until one of them comes again
 */
export function useSurvey(map: MapLibreMap | null, survey: SurveyOnMap | null | undefined, dataVersion: number): boolean {
  const on = survey != null
  const spans = survey ? surveyPath(survey.filter, dataVersion) : null
  const tracks = survey && survey.trackIds.length > 0 ? trackPath(survey.trackIds, dataVersion) : null
  const spanId = survey?.spanId ?? -1
  useEffect(() => {
    if (!map) return
    const draw = () => {
      if (!map.getSource(SURVEY)) return
      for (const [id, path] of [[SURVEY, spans], [TRACKS, tracks]] as const) {
        const source = map.getSource<VectorTileSource>(id)
        const url = path && location.origin + path
        if (!source || !url || source.serialize().tiles?.[0] === url) continue
        // A tile on its way by the old address would stay: the renderer does not ask for it again.
        if (map.isSourceLoaded(id)) source.setTiles([url])
        else map.once('idle', draw)
      }
      const show = (id: string, shown: boolean) => {
        const visibility = shown ? 'visible' : 'none'
        if (map.getLayer(id) && (map.getLayoutProperty(id, 'visibility') ?? 'visible') !== visibility) map.setLayoutProperty(id, 'visibility', visibility)
      }
      for (const id of LAYERS) show(id, id.startsWith('track-') ? tracks !== null : on)
      show(CLUSTER_LAYER, !on)
      // Circuits that the filter leaves out stay as context.
      const kept = on ? ['has', 'off'] as ['has', string] : null
      if (JSON.stringify(map.getFilter('circuit') ?? null) !== JSON.stringify(kept)) map.setFilter('circuit', kept)
      const chosen = ['==', ['id'], spanId] as unknown as ['==', string, number]
      if (JSON.stringify(map.getFilter('survey-span-chosen')) !== JSON.stringify(chosen)) map.setFilter('survey-span-chosen', chosen)
    }
    const ended = onStyle(map, draw)
    return () => {
      ended()
      map.off('idle', draw)
    }
  }, [map, on, spans, tracks, spanId])
  return useMissingTiles(on ? map : null, OURS)
}
