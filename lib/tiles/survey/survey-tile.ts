import type { Feature, LineString, Position } from 'geojson'
import GeoJSONVT from 'geojson-vt'
import { surveyFilterToQuery, type SurveyFilter } from '@/lib/contract/survey-layer'
import type { LineSpan } from '@/lib/store/tile-sources'
import type { CircuitIndex } from '../circuits/circuit-index'
import { encodeTile, EXTENT, type TileFeature, type TileValue } from '../encode'
import type { TileAddress } from '../splices/splice-tile'
import type { SpanLook } from './span-state'
import { askedSpans, lookAt, phasesAsked, type SurveyIndex } from './survey-index'

/** From here every span is a feature of its own, as circuit tiles have them; farther out neighbours that are alike are one line. */
const SPANS_FROM_ZOOM = 11
/** From here each phase of a span has its own line. */
export const PHASES_FROM_ZOOM = 14
const BUFFER = 128
const MOST_FAR = 4

/** Lines of the filters asked last, for tiles from afar: what was never surveyed by itself, since it is drawn however short it is. */
export type FarLines = Map<string, { never: GeoJSONVT; rest: GeoJSONVT }>

const tagsOf = (look: SpanLook): Record<string, TileValue> => ({ state: look.state, year: look.year, patrol: look.patrol ? 1 : undefined })

/**
 * Vector tile with layer `stretches` (circuit, state, year, patrol, lane) below zoom 11; from there `spans` (feature id = span id; besides back, ahead)
 * and from zoom 14 `phases` (besides phase, and nth of the phases that are asked for, around 0). Geometry and lanes are those of circuit tiles.
 */
export function surveyTileBytes(index: SurveyIndex, lines: CircuitIndex, far: FarLines, tile: TileAddress, filter: SurveyFilter): Uint8Array {
  if (tile.z < SPANS_FROM_ZOOM) {
    const { never, rest } = farLines(index, far, filter)
    const cut = (tiler: GeoJSONVT) => (tiler.getTile(tile.z, tile.x, tile.y)?.features ?? []) as TileFeature[]
    return encodeTile({ stretches: [...cut(rest), ...cut(never)] })
  }
  const spans = lines.layers.filter(({ name, fromZoom, toZoom }) => name === 'spans' && tile.z >= fromZoom && tile.z <= toZoom)
    .flatMap(({ tiler }) => (tiler.getTile(tile.z, tile.x, tile.y)?.features ?? []) as TileFeature[])
  const drawn = spans.flatMap((feature) => {
    const look = lookAt(index, { id: Number(feature.id), circuitId: Number(feature.tags.circuit) }, filter)
    return look ? [{ ...feature, tags: { ...feature.tags, name: index.circuits.get(Number(feature.tags.circuit))?.name, ...tagsOf(look) } }] : []
  })
  return encodeTile({ spans: drawn, phases: tile.z < PHASES_FROM_ZOOM ? [] : drawn.flatMap((feature) => phasesOf(index, feature, filter)) })
}

function phasesOf(index: SurveyIndex, feature: TileFeature, filter: SurveyFilter): TileFeature[] {
  const circuitId = Number(feature.tags.circuit)
  const phases = phasesAsked(index, circuitId, filter)
  return phases.flatMap((phase, i) => {
    const look = lookAt(index, { id: Number(feature.id), circuitId }, { ...filter, phases: [phase] })
    return look ? [{ ...feature, tags: { circuit: circuitId, lane: feature.tags.lane, phase, nth: i - (phases.length - 1) / 2, ...tagsOf(look) } }] : []
  })
}

function farLines(index: SurveyIndex, far: FarLines, filter: SurveyFilter): { never: GeoJSONVT; rest: GeoJSONVT } {
  const key = surveyFilterToQuery(filter)
  const made = far.get(key) ?? makeFar(runs(index, filter))
  far.delete(key)
  far.set(key, made)
  for (const old of far.keys()) if (far.size > MOST_FAR) far.delete(old)
  return made
}

function makeFar(features: Feature<LineString>[]): { never: GeoJSONVT; rest: GeoJSONVT } {
  const tiler = (never: boolean) => new GeoJSONVT(
    { type: 'FeatureCollection', features: features.filter(({ properties }) => (properties?.state === 'never') === never) },
    // A tolerance leaves out what is shorter than it.
    { maxZoom: SPANS_FROM_ZOOM, indexMaxZoom: 4, extent: EXTENT, tolerance: never ? 0 : 3, buffer: BUFFER })
  return { never: tiler(true), rest: tiler(false) }
}

/** Neighbouring spans that are alike, joined. */
function runs(index: SurveyIndex, filter: SurveyFilter): Feature<LineString>[] {
  const features: Feature<LineString>[] = []
  let last: { span: LineSpan; alike: string } | undefined
  for (const { span, look } of askedSpans(index, filter)) {
    const lane = index.lanes.get(span.id) ?? 0
    const alike = [look.state, look.year, look.patrol, lane].join()
    const points = positions(span.lonLat)
    const run = features.at(-1)
    if (run && last && last.alike === alike && last.span.sectionId === span.sectionId && last.span.ord + 1 === span.ord) run.geometry.coordinates.push(...points.slice(1))
    else features.push({ type: 'Feature', geometry: { type: 'LineString', coordinates: points }, properties: { circuit: span.circuitId, lane, ...tagsOf(look) } })
    last = { span, alike }
  }
  return features
}

const positions = (lonLat: readonly number[]): Position[] => Array.from({ length: lonLat.length / 2 }, (_, i) => [lonLat[2 * i] ?? 0, lonLat[2 * i + 1] ?? 0])
