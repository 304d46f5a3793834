'use client'
import { useEffect, useState } from 'react'
import type { ErrorEvent, Map as MapLibreMap, MapSourceDataEvent, VectorTileSource } from 'maplibre-gl'
import type { SpliceFilter } from '@/lib/contract/filter'
import { onStyle } from './on-style'
import { CIRCUITS } from './style/network-layers'
import { tilePath } from './style/make-style'
import { SPLICES } from './style/splice-layers'

/**
 * Asks for tiles again when the filter or the store changes; the old ones stay on screen until the new ones are there.
 * @returns whether lines or splices could not be had, until a tile of theirs comes again
 */
export function useTiles(map: MapLibreMap | null, filter: SpliceFilter, dataVersion: number): boolean {
  const missing = useMissing(map)
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
  return missing
}

function useMissing(map: MapLibreMap | null): boolean {
  const [missing, setMissing] = useState(false)
  useEffect(() => {
    if (!map) return
    const ours = (id: string | undefined): boolean => id === CIRCUITS || id === SPLICES
    const failed = (e: ErrorEvent & { sourceId?: string }) => { if (ours(e.sourceId)) setMissing(true) }
    const came = (e: MapSourceDataEvent) => { if (e.tile && ours(e.sourceId)) setMissing(false) }
    map.on('error', failed)
    map.on('sourcedata', came)
    return () => {
      map.off('error', failed)
      map.off('sourcedata', came)
    }
  }, [map])
  return missing
}
