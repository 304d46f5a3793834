'use client'
import { useEffect } from 'react'
import type { Map as MapLibreMap, VectorTileSource } from 'maplibre-gl'
import type { SpliceFilter } from '@/lib/contract/filter'
import { onStyle } from './on-style'
import { CIRCUITS } from './style/network-layers'
import { tilePath } from './style/make-style'
import { SPLICES } from './style/splice-layers'

/** Asks for tiles again when the filter or the store changes; the old ones stay on screen until the new ones are there. */
export function useTiles(map: MapLibreMap | null, filter: SpliceFilter, dataVersion: number): void {
  const circuits = tilePath('circuits', filter, dataVersion)
  const splices = tilePath('splices', filter, dataVersion)
  useEffect(() => {
    if (!map) return
    return onStyle(map, () => {
      for (const [id, path] of [[CIRCUITS, circuits], [SPLICES, splices]] as const) {
        const source = map.getSource<VectorTileSource>(id)
        const url = location.origin + path
        if (source && source.serialize().tiles?.[0] !== url) source.setTiles([url])
      }
    })
  }, [map, circuits, splices])
}
