'use client'
import 'maplibre-gl/dist/maplibre-gl.css'
import './class-colours.css'
import { useRef } from 'react'
import { preloadModule } from 'react-dom'
import { cx } from '@/components/ui/class-names'
import { useUnitSystem } from '@/components/ui/preferences'
import { HoverLabel } from './hover-label'
import { HoveredRing } from './hovered-ring'
import { MapControls, useScale } from './map-controls'
import { MapNotes } from './map-notes'
import { useMapPicture } from './map-picture'
import css from './map.module.css'
import type { NetworkMapProps } from './types'
import { useGraticule } from './use-graticule'
import { useMark } from './use-mark'
import { MAP_WORKER, useMap } from './use-map'
import { usePlacement } from './use-placement'
import { usePointer } from './use-pointer'
import { useSelection } from './use-selection'
import { useSurvey } from './use-survey'
import { useTiles } from './use-tiles'
import { useUnsettled } from './use-unsettled'
import { useView } from './use-view'

/** The network on its ground: circuits, structures, splices by condition. The list of splices is its equal in words. */
export function NetworkMap(props: NetworkMapProps) {
  const { filter, selection, dataVersion, networkBbox, theme, overlay, survey, className } = props
  preloadModule(MAP_WORKER, { as: 'script' })
  const container = useRef<HTMLDivElement>(null)
  const { map, basemap, groundMissing, trouble } = useMap(container, props)
  const [unitSystem] = useUnitSystem()
  const networkMissing = useTiles(map, filter, dataVersion)
  const surveyMissing = useSurvey(map, survey, dataVersion)
  useView(map, props)
  useGraticule(map, basemap?.embedded ?? false)
  useSelection(map, selection)
  useMark(map, props.mark)
  useUnsettled(map, props.unsettled)
  usePlacement(map, overlay)
  useMapPicture(map, survey?.inPicture ?? null)
  useScale(map, unitSystem)
  const hover = usePointer(map, props.onSelect, props.onUnsettled, survey?.onSpan)
  return (
    <div className={cx(css.frame, className)} data-map-theme={theme}>
      <div ref={container} className={css.map} data-network-map="" data-idle="0" />
      <span className={css.cross} aria-hidden="true" />
      {map && <MapControls map={map} networkBbox={networkBbox} />}
      {map && basemap && <MapNotes map={map} basemap={basemap} groundMissing={groundMissing} networkMissing={networkMissing} surveyMissing={surveyMissing} />}
      {map && !overlay && <HoveredRing map={map} />}
      {hover && !overlay && <HoverLabel hover={hover} spanWords={survey?.spanWords} />}
      {trouble !== null && (
        <p className={css.trouble} role="alert">
          The map cannot be drawn here: {trouble}. {overlay ? 'The same places stand beside it in words' : 'List, strip and sheets hold the same splices'}; another browser may draw the map.
        </p>
      )}
    </div>
  )
}
