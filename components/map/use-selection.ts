'use client'
import { useEffect, useState } from 'react'
import type { GeoJSONSource, Map as MapLibreMap } from 'maplibre-gl'
import { z } from 'zod'
import type { ConditionClass } from '@/lib/condition/types'
import { conditionClass } from '@/lib/contract/condition-class'
import { onStyle } from './on-style'
import { drawnAside } from './style/lanes'
import { SELECTED } from './style/overlay-layers'
import { SPLICES } from './style/splice-layers'
import type { Selection } from './types'

interface Place { id: number; lon: number; lat: number; class: ConditionClass }

const placeShape = z.looseObject({ lon: z.number(), lat: z.number(), class: conditionClass })

/** A splice may be selected that no tile shows as a mark (it stands in a cluster, or elsewhere): the API says where it is. */
function useSplicePlace(id: number | null): Place | null {
  const [place, setPlace] = useState<Place | null>(null)
  useEffect(() => {
    if (id === null) return
    const stop = new AbortController()
    fetch(`/api/v1/splices/${id}`, { signal: stop.signal })
      .then(async (r) => (r.ok ? placeShape.parse(await r.json()) : null))
      .then((found) => { if (found) setPlace({ id, lon: found.lon, lat: found.lat, class: found.class }) })
      .catch(() => undefined) // without its place the ring is left out; the sheet tells what went wrong
    return () => stop.abort()
  }, [id])
  return place?.id === id ? place : null
}

/** Draws what is selected: a ring round the splice and its mark in it, or the circuit's line in ink. */
export function useSelection(map: MapLibreMap | null, selection: Selection): void {
  const spliceId = selection?.kind === 'splice' ? selection.id : null
  const circuitId = selection?.kind === 'circuit' ? selection.id : -1
  const place = useSplicePlace(spliceId)

  useEffect(() => {
    if (!map) return
    return onStyle(map, () => {
      for (const layer of ['circuit-selected', 'circuit-selected-halo']) map.setFilter(layer, ['==', ['id'], circuitId])
    })
  }, [map, circuitId])

  useEffect(() => {
    if (!map) return
    let drawn = ''
    const draw = () => {
      const source = map.getSource<GeoJSONSource>(SELECTED)
      if (!source) return
      const mark = spliceId === null ? undefined
        : map.querySourceFeatures(SPLICES, { sourceLayer: 'splices', filter: ['==', ['id'], spliceId] })[0]
      // Around the mark as it is drawn, which may be beside its place.
      const aside = drawnAside(mark?.properties ?? {}, map.getZoom())
      const coordinates = mark?.geometry.type === 'Point' ? mark.geometry.coordinates : place && [place.lon, place.lat]
      const properties = mark ? { class: mark.properties.class as ConditionClass, ...(mark.properties.past !== undefined && { past: true }) } : { class: place?.class }
      const now = JSON.stringify([coordinates, aside, properties])
      if (now === drawn) return
      drawn = now
      for (const layer of ['selected-halo', 'selected-ring']) map.setPaintProperty(layer, 'circle-translate', aside)
      map.setPaintProperty('selected-mark', 'icon-translate', aside)
      source.setData(coordinates ? { type: 'Feature', geometry: { type: 'Point', coordinates }, properties } : { type: 'FeatureCollection', features: [] })
    }
    const ended = onStyle(map, () => {
      drawn = ''
      draw()
    })
    // The tiles of a new zoom, in which the mark may stand elsewhere, come after the zoom.
    map.on('zoomend', draw)
    map.on('idle', draw)
    return () => {
      ended()
      map.off('zoomend', draw)
      map.off('idle', draw)
    }
  }, [map, spliceId, place])
}
