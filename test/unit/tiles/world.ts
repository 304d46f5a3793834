import { VectorTile } from '@mapbox/vector-tile'
import { PbfReader } from 'pbf'
import { CLASS_COUNT, type SpliceColumns } from '@/lib/tiles/splices/splice-columns'

/** Numbers that look random and are the same every time (linear congruential generator, Numerical Recipes). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return state / 2 ** 32
  }
}

/** Splices along crooked lines over a few degrees, many of them close together, some at the same place. */
export function spliceColumns(count: number, seed = 1): SpliceColumns {
  const random = seeded(seed)
  const circuits = Math.max(1, Math.floor(count / 100))
  const phases = ['A', 'B', 'C', null]
  const lonDeg = new Float64Array(count)
  const latDeg = new Float64Array(count)
  let [lon, lat, heading] = [0, 0, 0]
  for (let i = 0; i < count; i++) {
    if (i % 100 === 0) [lon, lat, heading] = [-116 + 4 * random(), 46.5 + 2.5 * random(), 6.28 * random()]
    if (i % 3 === 0) {
      heading += (random() - 0.5) * 0.4
      lon += 0.006 * random() * Math.cos(heading)
      lat += 0.004 * random() * Math.sin(heading)
    }
    lonDeg[i] = lon
    latDeg[i] = lat
  }
  return {
    id: Int32Array.from({ length: count }, (_, i) => 10 + i),
    lonDeg,
    latDeg,
    axisDeg: Uint8Array.from({ length: count }, (_, i) => i % 180),
    classNo: Uint8Array.from({ length: count }, () => Math.floor(random() ** 2 * CLASS_COUNT)),
    renewByDay: Int32Array.from({ length: count }, (_, i) => 20_000 + (i % 10)),
    sideNo: new Uint32Array(),
    sides: [],
    groupNo: Uint32Array.from({ length: count }, (_, i) => (Math.floor(i / 100) % circuits) * phases.length + (i % phases.length)),
    groups: Array.from({ length: circuits * phases.length }, (_, g) => {
      const circuit = Math.floor(g / phases.length)
      return { circuitId: circuit + 1, voltageKv: circuit % 2 ? 230 : 115, phase: phases[g % phases.length] ?? null }
    }),
    names: Buffer.from(Array.from({ length: count }, (_, i) => `${i}-é`).join('\0')),
  }
}

export interface Decoded {
  id: number | undefined
  properties: Record<string, string | number | boolean>
  /** Tile units. */
  points: { x: number; y: number }[]
}

/** Features of one layer of a vector tile, read by the renderer's own decoder. */
export function decode(bytes: Uint8Array, layerName: string): Decoded[] {
  const layer = new VectorTile(new PbfReader(bytes)).layers[layerName]
  return Array.from({ length: layer?.length ?? 0 }, (_, i) => {
    const feature = layer?.feature(i)
    return {
      id: feature?.id,
      properties: feature?.properties ?? {},
      points:
        feature
          ?.loadGeometry()
          .flat()
          .map(({ x, y }) => ({ x, y })) ?? [],
    }
  })
}

/** Tiles of one zoom over longitudes -118 … -110 and latitudes 45 … 50, where spliceColumns puts everything. */
export function tilesOverWorld(z: number): { z: number; x: number; y: number }[] {
  const n = 2 ** z
  const column = (lon: number) => Math.floor(((lon + 180) / 360) * n)
  const row = (lat: number) => {
    const angle = (lat * Math.PI) / 180
    return Math.floor(((1 - Math.log(Math.tan(angle) + 1 / Math.cos(angle)) / Math.PI) / 2) * n)
  }
  const tiles: { z: number; x: number; y: number }[] = []
  for (let x = column(-118); x <= column(-110); x++) for (let y = row(50); y <= row(45); y++) tiles.push({ z, x, y })
  return tiles
}
