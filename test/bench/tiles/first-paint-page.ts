import { addProtocol, Map as MapLibreMap, setWorkerUrl } from 'maplibre-gl'
import { Protocol } from 'pmtiles'
import { provideImage } from '@/components/map/images/provide-image'
import { embeddedBasemap, networkStyle } from '@/components/map/style/make-style'

/** The product's style on a bare page: what the browser needs to draw the tiles, without the screens around it. */
const origin = location.origin
const [zoom = 5, lon = -97, lat = 39] = location.hash.slice(1).split('/').map(Number)
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
map.setStyle(networkStyle(embeddedBasemap(origin, 'light'), { origin, theme: 'light', filter: {}, dataVersion: 1 }))
const seen = { marksMs: 0, idleMs: 0 }
map.on('render', () => {
  if (!seen.marksMs && map.getLayer('splice-clusters') && map.queryRenderedFeatures({ layers: ['splice-clusters'] }).length > 0)
    seen.marksMs = performance.now()
})
map.on('idle', () => {
  if (!seen.idleMs && seen.marksMs) document.body.dataset.seen = JSON.stringify({ ...seen, idleMs: (seen.idleMs = performance.now()) })
})
