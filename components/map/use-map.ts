'use client'
import { useEffect, useRef, useState, type RefObject } from 'react'
import type { ErrorEvent, Map as MapLibreMap, MapSourceDataEvent } from 'maplibre-gl'
import { dryStyle, floodWhenDrawn } from './dry-start'
import { provideImage } from './images/provide-image'
import { roomIn } from './room'
import { loadBasemap, type LoadedBasemap } from './style/load-basemap'
import { networkStyle } from './style/make-style'
import { SPLICES } from './style/splice-layers'
import type { NetworkMapProps } from './types'

export const MAP_WORKER = '/maplibre/maplibre-gl-worker.mjs'
/** Whole continent, for a store that has no network yet. */
const FIRST_VIEW = { center: [-98, 40] as [number, number], zoom: 3.2 }
/** So many failed basemap tiles without one that came: the operator's basemap is out of reach. */
const TOO_MANY_FAILURES = 3
const TITLE = 'Map of the lines and splices. The list of splices holds the same, in words. '
  + 'Arrow keys move, plus and minus zoom, Enter selects what is under the cross, Escape clears.'

let libraries: ReturnType<typeof fetchLibraries> | undefined

async function fetchLibraries() {
  const [maplibre, { Protocol }] = await Promise.all([import('maplibre-gl'), import('pmtiles')])
  // Bundlers move the library away from its worker, so the page says where it is served; same-origin, for a strict content policy.
  maplibre.setWorkerUrl(`${location.origin}${MAP_WORKER}`)
  maplibre.addProtocol('pmtiles', new Protocol({ metadata: true }).tile)
  return maplibre
}

/** Once a page; a library that did not arrive is asked for again by the next map. */
function loadLibraries() {
  libraries ??= fetchLibraries().catch((e: unknown) => {
    libraries = undefined
    throw e
  })
  return libraries
}

// The library is on its way while the page still wakes up: waiting for the first effect cost a fresh browser a round of its own.
if (typeof window !== 'undefined') loadLibraries().catch(() => undefined)

const NO_WEBGL = 'this browser draws no WebGL 2, or its graphics acceleration is turned off'
function whyNoMap(e: unknown): string {
  const said = e instanceof Error ? e.message : ''
  return /webgl/i.test(said) ? NO_WEBGL : said || 'the map could not be started'
}

const stillMotion = () => window.matchMedia('(prefers-reduced-motion: reduce)').matches
export const isUnderTest = () => new URLSearchParams(location.search).has('test')

/**
 * Tells from the first answers whether a basemap is there at all: a source that cannot be read, or tiles that fail. A tile that does
 * not exist (404) is no failure: a regional basemap has an edge.
 */
function watchBasemap(map: MapLibreMap, loaded: LoadedBasemap, onFailure: () => void): () => void {
  const sources = new Set(Object.keys(loaded.basemap.style.sources))
  let failures = 0
  let arrived = false
  const onData = (e: MapSourceDataEvent) => { if (sources.has(e.sourceId) && e.tile) arrived = true }
  const onError = (e: ErrorEvent & { sourceId?: string; tile?: unknown }) => {
    if (!e.sourceId || !sources.has(e.sourceId) || arrived) return
    failures += e.tile ? 1 : TOO_MANY_FAILURES
    if (failures >= TOO_MANY_FAILURES) onFailure()
  }
  map.on('sourcedata', onData)
  map.on('error', onError)
  return () => {
    map.off('sourcedata', onData)
    map.off('error', onError)
  }
}

type Wanted = Pick<NetworkMapProps, 'basemap' | 'theme' | 'filter' | 'dataVersion' | 'view' | 'networkBbox'>

export interface MapHandle {
  map: MapLibreMap | null
  basemap: LoadedBasemap | null
  /** Even the built-in basemap did not come: lines and splices are drawn on plain paper. */
  groundMissing: boolean
  /** Null where the map can draw; else why it cannot. */
  trouble: string | null
}

/** One MapLibre map for the life of the component; its style follows the basemap setting and the theme. */
export function useMap(container: RefObject<HTMLDivElement | null>, wanted: Wanted): MapHandle {
  const [map, setMap] = useState<MapLibreMap | null>(null)
  const [basemap, setBasemap] = useState<LoadedBasemap | null>(null)
  const [trouble, setTrouble] = useState<string | null>(null)
  const [groundMissing, setGroundMissing] = useState(false)
  const latest = useRef(wanted)
  const hasGround = useRef(false)
  useEffect(() => { latest.current = wanted })
  const { theme } = wanted
  const setting = JSON.stringify(wanted.basemap)

  useEffect(() => {
    let dropped = false
    void loadBasemap(JSON.parse(setting) as NetworkMapProps['basemap'], theme, location.origin).then((loaded) => {
      if (!dropped) setBasemap(loaded)
    })
    return () => { dropped = true }
  }, [setting, theme])

  const ready = basemap !== null
  useEffect(() => {
    if (!ready) return
    let dropped = false
    let made: MapLibreMap | undefined
    loadLibraries().then((maplibre) => {
      const element = container.current
      if (dropped || !element) return
      const { view, networkBbox } = latest.current
      const start = view ? { center: [view.lon, view.lat] as [number, number], zoom: view.zoom }
        : networkBbox ? { bounds: networkBbox, fitBoundsOptions: { padding: roomIn(element), maxZoom: 14 } } : FIRST_VIEW
      made = new maplibre.Map({
        container: element, style: { version: 8, sources: {}, layers: [] }, ...start, minZoom: 1.5, maxZoom: 20, maxPitch: 0,
        dragRotate: false, pitchWithRotate: false, touchPitch: false, attributionControl: false, locale: { 'Map.Title': TITLE },
        fadeDuration: stillMotion() ? 0 : 120, canvasContextAttributes: { preserveDrawingBuffer: isUnderTest(), antialias: true },
      })
      made.touchZoomRotate.disableRotation()
      made.keyboard.disableRotation()
      const map = made
      map.setMissingStyleImageResolver((id) => provideImage(map, id))
      map.addControl(new maplibre.AttributionControl({ compact: false }), 'bottom-right')
      map.on('movestart', () => element.setAttribute('data-idle', '0'))
      map.on('dataloading', () => element.setAttribute('data-idle', '0'))
      map.on('dataabort', () => map.triggerRepaint()) // a load that is dropped draws nothing by itself, and only a drawn frame can end in 'idle'
      map.on('idle', () => { if (map.getSource(SPLICES)) element.setAttribute('data-idle', '1') })
      if (isUnderTest()) Object.assign(window, { networkMap: map })
      setMap(map)
    }).catch((e: unknown) => setTrouble(whyNoMap(e)))
    return () => {
      dropped = true
      setMap(null)
      made?.remove()
    }
  }, [ready, container])

  useEffect(() => {
    if (!map || !basemap) return
    const { filter, dataVersion, theme: shownTheme } = latest.current
    const style = networkStyle(basemap.basemap, { origin: location.origin, theme: shownTheme, filter, dataVersion, nowYear: new Date().getUTCFullYear() })
    map.setStyle(hasGround.current ? style : dryStyle(style, shownTheme), { diff: true })
    const unflood = hasGround.current ? undefined : floodWhenDrawn(map, shownTheme, () => { hasGround.current = true })
    const unwatch = watchBasemap(map, basemap, () => {
      if (basemap.embedded) return setGroundMissing(true)
      void loadBasemap({ kind: 'embedded' }, latest.current.theme, location.origin)
        .then((embedded) => setBasemap({ ...embedded, failure: 'its tiles did not arrive' }))
    })
    return () => {
      unwatch()
      unflood?.()
    }
  }, [map, basemap])

  return { map, basemap, groundMissing, trouble }
}
