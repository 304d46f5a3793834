'use client'
import { useEffect, useState } from 'react'
import type { Map as MapLibreMap } from 'maplibre-gl'
import css from './map.module.css'
import { BASE_DETAIL_ENDS } from './style/base-layers'
import type { LoadedBasemap } from './style/load-basemap'

/** What the map does not show, said quietly: where the basemap's detail ends, and whose basemap is missing. */
export function MapNotes({ map, basemap, groundMissing, networkMissing, surveyMissing }: {
  map: MapLibreMap; basemap: LoadedBasemap; groundMissing: boolean; networkMissing: boolean; surveyMissing: boolean
}) {
  const [beyond, setBeyond] = useState(false)
  useEffect(() => {
    const look = () => setBeyond(map.getZoom() > BASE_DETAIL_ENDS)
    look()
    map.on('zoomend', look)
    return () => { map.off('zoomend', look) }
  }, [map])
  return (
    <div className={css.notes} role="status">
      {basemap.failure !== null && (
        <p className={css.failure}>The basemap in settings could not be used: {basemap.failure}. The built-in one is shown.</p>
      )}
      {networkMissing && <p className={css.failure}>Lines and splices could not be drawn: the server did not give them. The list holds the same splices.</p>}
      {surveyMissing && <p className={css.failure}>The survey layer could not be drawn: the server did not give it. What was never surveyed stands in its list.</p>}
      {groundMissing && <p className={css.failure}>The built-in basemap could not be read. Lines and splices are drawn without it.</p>}
      {basemap.embedded && beyond && <p>Basemap detail ends at this scale.</p>}
    </div>
  )
}
