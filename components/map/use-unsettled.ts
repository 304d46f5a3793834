import { useEffect } from 'react'
import type { GeoJSONSource, Map as MapLibreMap } from 'maplibre-gl'
import { onStyle } from './on-style'
import { UNSETTLED } from './style/overlay-layers'
import type { UnsettledMark } from './types'

const NONE: readonly UnsettledMark[] = []

/** Marks urgent and critical readings whose place is not settled where they were taken. */
export function useUnsettled(map: MapLibreMap | null, unsettled: readonly UnsettledMark[] = NONE): void {
  useEffect(() => {
    if (!map) return
    return onStyle(map, () => {
      map.getSource<GeoJSONSource>(UNSETTLED)?.setData({
        type: 'FeatureCollection',
        features: unsettled.map(({ reading_id: id, class: cls, lon, lat }) => ({
          type: 'Feature', id, geometry: { type: 'Point', coordinates: [lon, lat] }, properties: { class: cls },
        })),
      })
    })
  }, [map, unsettled])
}
