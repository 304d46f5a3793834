'use client'
import { useEffect } from 'react'
import type { GeoJSONSource, Map as MapLibreMap } from 'maplibre-gl'
import { onStyle } from './on-style'
import { FOUND } from './style/overlay-layers'
import type { FoundMark } from './types'

/** Marks what was looked for and has no mark of its own. */
export function useMark(map: MapLibreMap | null, mark: FoundMark | null | undefined): void {
  const [lon, lat, label] = [mark?.lon, mark?.lat, mark?.label]
  useEffect(() => {
    if (!map) return
    return onStyle(map, () => {
      map.getSource<GeoJSONSource>(FOUND)?.setData(lon === undefined || lat === undefined
        ? { type: 'FeatureCollection', features: [] }
        : { type: 'Feature', geometry: { type: 'Point', coordinates: [lon, lat] }, properties: { label } })
    })
  }, [map, lon, lat, label])
}
