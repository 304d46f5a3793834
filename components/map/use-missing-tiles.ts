'use client'
import { useEffect, useState } from 'react'
import type { ErrorEvent, Map as MapLibreMap, MapSourceDataEvent } from 'maplibre-gl'

/** Whether tiles of these sources could not be had, until one of them comes again. `sources` must be the same array at every call. */
export function useMissingTiles(map: MapLibreMap | null, sources: readonly string[]): boolean {
  const [missing, setMissing] = useState(false)
  useEffect(() => {
    if (!map) return
    const ours = (id: string | undefined): boolean => id !== undefined && sources.includes(id)
    const failed = (e: ErrorEvent & { sourceId?: string }) => { if (ours(e.sourceId)) setMissing(true) }
    const came = (e: MapSourceDataEvent) => { if (e.tile && ours(e.sourceId)) setMissing(false) }
    map.on('error', failed)
    map.on('sourcedata', came)
    return () => {
      map.off('error', failed)
      map.off('sourcedata', came)
    }
  }, [map, sources])
  return missing && map !== null
}
