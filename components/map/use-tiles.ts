'use client'
import { useEffect } from 'react'
import type { Map as MapLibreMap, VectorTileSource } from 'maplibre-gl'
import type { SpliceFilter } from '@/lib/contract/filter'
import { onStyle } from './on-style'
import { CIRCUITS } from './style/network-layers'
import { tilePath } from './style/make-style'
import { SPLICES } from './style/splice-layers'
import { useMissingTiles } from './use-missing-tiles'

const OURS = [CIRCUITS, SPLICES]
const ASK_AGAIN_MS = 10_000

/**
 * Asks for tiles again when the filter or the store changes, or where they failed; the old ones stay on screen until the new ones are there.
 * @returns whether lines or splices could not be had, until a tile of theirs comes again
 */
export function useTiles(map: MapLibreMap | null, filter: SpliceFilter, dataVersion: number): boolean {
  const missing = useMissingTiles(map, OURS)
  const circuits = tilePath('circuits', filter, dataVersion)
  const splices = tilePath('splices', filter, dataVersion)
  useEffect(() => {
    if (!map) return
    return onStyle(map, () => ask(map, { circuits, splices }, false))
  }, [map, circuits, splices])
  useEffect(() => {
    if (!map || !missing) return
    const timer = setInterval(() => ask(map, { circuits, splices }, true), ASK_AGAIN_MS)
    return () => clearInterval(timer)
  }, [map, missing, circuits, splices])
  return missing
}

/** @param again also those that the map has asked for already: tiles that failed are not asked for again by themselves */
function ask(map: MapLibreMap, paths: { circuits: string; splices: string }, again: boolean): void {
  for (const [id, path] of [[CIRCUITS, paths.circuits], [SPLICES, paths.splices]] as const) {
    const source = map.getSource<VectorTileSource>(id)
    const url = location.origin + path
    if (source && (again || source.serialize().tiles?.[0] !== url)) source.setTiles([url])
  }
}
