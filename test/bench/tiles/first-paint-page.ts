import { addProtocol, Map as MapLibreMap, setWorkerUrl } from 'maplibre-gl'
import { Protocol } from 'pmtiles'
import { provideImage } from '@/components/map/images/provide-image'
import { fontFaces } from '@/components/map/style/fonts'
import { embeddedBasemap, networkStyle } from '@/components/map/style/make-style'

/** The product's style on a bare page: what the browser needs to draw the tiles, without the screens around it. */
const origin = location.origin
const [view = '', what = ''] = location.hash.slice(1).split(':')
const [zoom = 5, lon = -97, lat = 39] = view.split('/').map(Number)
setWorkerUrl(`${origin}/maplibre/maplibre-gl-worker.mjs`)
addProtocol('pmtiles', new Protocol({ metadata: true }).tile)
const map = new MapLibreMap({
  container: 'map',
  style: { version: 8, sources: {}, layers: [] },
  center: [lon, lat],
  zoom,
  fadeDuration: 0,
  maxPitch: 0,
})
map.setMissingStyleImageResolver((id) => provideImage(map, id))
const basemap = embeddedBasemap(origin, 'light')
// The peer: the ground alone, what the library itself needs here before anything of ours.
const ground = { ...basemap.style, 'font-faces': fontFaces(origin) }
map.setStyle(what === 'ground' ? ground : networkStyle(basemap, { origin, theme: 'light', filter: {}, dataVersion: 1, nowYear: 2026 }))
const seen = { marksMs: 0, idleMs: 0 }
map.on('render', () => {
  if (!seen.marksMs && map.getLayer('splice-clusters') && map.queryRenderedFeatures({ layers: ['splice-clusters'] }).length > 0)
    seen.marksMs = performance.now()
})
map.on('idle', () => {
  if (!seen.idleMs && (seen.marksMs || (what === 'ground' && map.isStyleLoaded()))) document.body.dataset.seen = JSON.stringify({ ...seen, idleMs: (seen.idleMs = performance.now()) })
})
