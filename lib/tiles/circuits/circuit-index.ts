import type { Feature } from 'geojson'
import GeoJSONVT from 'geojson-vt'
import type { SpliceFilter } from '@/lib/contract/filter'
import type { LineCircuit, NetworkLines } from '@/lib/store/tile-sources'
import { encodeTile, EXTENT, type TileFeature, type TileValue } from '../encode'
import { TILE_CLASSES, UNKNOWN } from '../splices/splice-columns'
import type { TileAddress } from '../splices/splice-tile'
import { lineFeatures } from './line-features'
import { namePoints } from './name-points'
import { crossingFeatures, structureFeatures } from './point-features'
import { TRUE_FROM_ZOOM } from './true-from-zoom'

/** A tile unit here is 0.15 m at the equator; the renderer enlarges these tiles further in. */
export const CIRCUIT_MAX_ZOOM = TRUE_FROM_ZOOM
const STRUCTURES_FROM_ZOOM = 11
const CROSSINGS_FROM_ZOOM = 10
/** Lines are drawn beside their geometry where circuits run in parallel, and widely by voltage: they reach over a tile's edge. */
const BUFFER = 128

/** One tiler per layer. Lines are simplified to 3 tile units (0.4 px) at every zoom below the last. */
export interface CircuitIndex {
  circuits: Map<number, LineCircuit>
  layers: { name: string; fromZoom: number; toZoom: number; tiler: GeoJSONVT }[]
}

export function buildCircuitIndex(network: NetworkLines): CircuitIndex {
  const { circuits, spans, trueCircuits, trueSpans, arms, rightOfWay } = lineFeatures(network)
  const layer = (name: string, fromZoom: number, features: Feature[], { buffer = BUFFER, toZoom = CIRCUIT_MAX_ZOOM } = {}) => {
    const options = { maxZoom: CIRCUIT_MAX_ZOOM, indexMaxZoom: 4, extent: EXTENT, tolerance: 3, buffer }
    return { name, fromZoom, toZoom, tiler: new GeoJSONVT({ type: 'FeatureCollection', features }, options) }
  }
  return {
    circuits: new Map(network.circuits.map((c) => [c.id, c])),
    layers: [
      layer('right_of_way', STRUCTURES_FROM_ZOOM, rightOfWay),
      layer('circuits', 0, circuits, { toZoom: TRUE_FROM_ZOOM - 1 }),
      layer('circuits', TRUE_FROM_ZOOM, trueCircuits),
      layer('circuit_names', 5, namePoints(circuits, TRUE_FROM_ZOOM - 1), { buffer: 0, toZoom: TRUE_FROM_ZOOM - 1 }),
      layer('circuit_names', TRUE_FROM_ZOOM, namePoints(trueCircuits, CIRCUIT_MAX_ZOOM), { buffer: 0 }),
      layer('spans', STRUCTURES_FROM_ZOOM, spans, { toZoom: TRUE_FROM_ZOOM - 1 }),
      layer('spans', TRUE_FROM_ZOOM, trueSpans),
      layer('arms', TRUE_FROM_ZOOM, arms),
      // Points belong to one tile only: with a buffer their names would be placed twice.
      layer('structures', STRUCTURES_FROM_ZOOM, structureFeatures(network), { buffer: 0 }),
      layer('crossings', CROSSINGS_FROM_ZOOM, crossingFeatures(network), { buffer: 0 }),
    ],
  }
}

/** Circuits that a filter leaves out stay on the map as context: `off` says so. */
function isOff(circuit: LineCircuit, filter: SpliceFilter): boolean {
  const { circuitIds, voltagesKv } = filter
  if (circuitIds && !circuitIds.includes(circuit.id)) return true
  return voltagesKv !== undefined && (circuit.voltageKv === null || !voltagesKv.includes(circuit.voltageKv))
}

/**
 * Vector tile with layers `circuits` (feature id = circuit id; name, kv, worst, lane, off), `circuit_names` (short, label, from, angle, out),
 * from zoom 10 `crossings` (kind, name, angle), from zoom 11 `spans` (circuit, lane, back, ahead), `structures` (label, type, angle,
 * circuits) and `right_of_way` (px20), from zoom 16 `arms`. `worst` is the circuit's worst class over all its splices whatever the filter, so that no filter
 * makes a circuit look better than it is.
 */
export function circuitTileBytes(
  index: CircuitIndex, worstOfCircuit: Map<number, number>, tile: TileAddress, filter: SpliceFilter,
): Uint8Array {
  const shared = new Map([...index.circuits].map(([id, circuit]) => {
    const off = isOff(circuit, filter) ? 1 : null
    const worst = TILE_CLASSES[worstOfCircuit.get(id) ?? UNKNOWN]
    return [id, { line: { name: circuit.name, kv: circuit.voltageKv, worst, off }, off }]
  }))
  const layers: Record<string, TileFeature[]> = {}
  for (const { name, tiler } of index.layers.filter((l) => tile.z >= l.fromZoom && tile.z <= l.toZoom)) {
    const features = tiler.getTile(tile.z, tile.x, tile.y)?.features ?? []
    layers[name] = features.filter((f) => Number(f.tags?.from ?? 0) <= tile.z).map((f) => {
      const tags = f.tags as Record<string, TileValue>
      const circuit = shared.get(Number(tags.circuit))
      if (name === 'circuits') {
        return { ...f, id: Number(tags.circuit), tags: { lane: tags.lane, ...circuit?.line } } as TileFeature
      }
      return (circuit?.off ? { ...f, tags: { ...tags, off: circuit.off } } : f) as TileFeature
    })
  }
  return encodeTile(layers)
}
