import type { Map as MapLibreMap, MapGeoJSONFeature, PointLike } from 'maplibre-gl'
import { UNSETTLED_LAYER } from './style/overlay-layers'
import { CLUSTER_LAYER, SPLICE_LAYER } from './style/splice-layers'
import { SPAN_TOUCH, TRACK_TOUCH } from './style/survey-layers'

/** Fingers and trembling hands hit beside: px around the pointer. */
const REACH_PX = 7

export type Picked =
  | { kind: 'unsettled'; id: number; feature: MapGeoJSONFeature }
  | { kind: 'splice'; id: number; feature: MapGeoJSONFeature }
  | { kind: 'cluster'; lon: number; lat: number; feature: MapGeoJSONFeature }
  | { kind: 'span'; id: number; feature: MapGeoJSONFeature }
  | { kind: 'track'; feature: MapGeoJSONFeature }
  | { kind: 'circuit'; id: number; feature: MapGeoJSONFeature }
  | null

const number = (value: unknown): number => (typeof value === 'number' ? value : 0)

const box = (x: number, y: number, reach: number): [PointLike, PointLike] => [[x - reach, y - reach], [x + reach, y + reach]]

/** What lies under a screen point: the worst splice or cluster, else a span or track of the survey layer, else a circuit. Straight hits go before near ones. */
export function pickAt(map: MapLibreMap, x: number, y: number, reach = REACH_PX): Picked {
  // It lies over the splices that it may be.
  const unsettled = map.getLayer(UNSETTLED_LAYER) && map.queryRenderedFeatures(box(x, y, reach), { layers: [UNSETTLED_LAYER] })[0]
  if (unsettled) return { kind: 'unsettled', id: Number(unsettled.id), feature: unsettled }
  for (const r of [1, reach]) {
    const hits = map.queryRenderedFeatures(box(x, y, r), { layers: [SPLICE_LAYER, CLUSTER_LAYER].filter((l) => map.getLayer(l)) })
    const worst = hits.sort((a, b) => number(b.properties.rank) - number(a.properties.rank))[0]
    if (worst?.geometry.type !== 'Point') continue
    if (worst.layer.id === CLUSTER_LAYER) {
      const [lon = 0, lat = 0] = worst.geometry.coordinates
      return { kind: 'cluster', lon, lat, feature: worst }
    }
    return { kind: 'splice', id: Number(worst.id), feature: worst }
  }
  const survey = map.queryRenderedFeatures(box(x, y, 2), { layers: [SPAN_TOUCH, TRACK_TOUCH].filter((l) => map.getLayer(l)) })
  const track = survey.find((f) => f.layer.id === TRACK_TOUCH)
  if (track && !survey.some((f) => f.layer.id === SPAN_TOUCH)) return { kind: 'track', feature: track }
  const span = survey.find((f) => f.layer.id === SPAN_TOUCH)
  if (span) return { kind: 'span', id: Number(span.id), feature: span }
  if (!map.getLayer('circuit-touch')) return null
  const circuit = map.queryRenderedFeatures(box(x, y, 2), { layers: ['circuit-touch'] })[0]
  return circuit ? { kind: 'circuit', id: Number(circuit.id), feature: circuit } : null
}
