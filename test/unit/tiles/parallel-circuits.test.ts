import { beforeAll, describe, expect, it } from 'vitest'
import { laneAsidePx, drawnAside } from '@/components/map/style/lanes'
import { conductorAt, lineDistances } from '@/lib/geo'
import type { LineSpan } from '@/lib/store/tile-sources'
import { buildCircuitIndex, CIRCUIT_MAX_ZOOM, circuitTileBytes, type CircuitIndex } from '@/lib/tiles/circuits/circuit-index'
import { sidesOfSpans } from '@/lib/tiles/splices/sides'
import { buildSpliceIndex, type SpliceIndex } from '@/lib/tiles/splices/splice-index'
import { spliceTileBytes } from '@/lib/tiles/splices/splice-tile'
import { decode } from './world'

const CENTRELINE = [-114.86, 47.85, -114.8572, 47.8528, -114.8561, 47.857, -114.8587, 47.8611, -114.854, 47.8649]
const UNITS_PER_PX = 8

/** A corridor with bends, both circuits on every structure; the second may run the other way. */
function corridor(offsets: [number | null, number | null], secondBackwards: boolean): LineSpan[] {
  return offsets.flatMap((lateralOffsetM, c) => {
    const pairs = Array.from({ length: CENTRELINE.length / 2 }, (_, i) => CENTRELINE.slice(2 * i, 2 * i + 2))
    const line = c === 1 && secondBackwards ? pairs.reverse() : pairs
    return line.slice(1).map((ahead, ord): LineSpan => ({
      id: 10 * c + ord + 1, sectionId: c + 1, circuitId: c + 1, ord, structureBack: null, structureAhead: null, startM: 0, endM: 1,
      lateralOffsetM, lonLat: [...(line[ord] ?? []), ...ahead],
    }))
  })
}

interface Corridor { splices: SpliceIndex; lines: CircuitIndex; circuitOf: number[] }

async function build(spans: LineSpan[]): Promise<Corridor> {
  const { sides, numberOf } = sidesOfSpans(spans)
  const placed = spans.map((span) => {
    const chain = spans.filter((s) => s.circuitId === span.circuitId)
    const line = Float64Array.from(chain.flatMap((s, i) => (i === 0 ? s.lonLat : s.lonLat.slice(2))))
    const distances = lineDistances(line)
    const [fromM, toM] = [distances[span.ord] ?? 0, distances[span.ord + 1] ?? 0]
    // Apart from those of the other circuit, so that they stand singly from afar too.
    const at = conductorAt(line, span.lateralOffsetM ?? 0, fromM + (span.circuitId === 1 ? 0.25 : 0.6) * (toM - fromM))
    return { at, span }
  })
  const splices = await buildSpliceIndex({
    id: Int32Array.from(placed, (_, i) => i + 1), lonDeg: Float64Array.from(placed, (p) => p.at[0]), latDeg: Float64Array.from(placed, (p) => p.at[1]),
    classNo: new Uint8Array(placed.length), renewByDay: new Int32Array(placed.length), axisDeg: new Uint8Array(placed.length),
    sideNo: Uint32Array.from(placed, (p) => numberOf.get(p.span.id) ?? 0), sides,
    groupNo: Uint32Array.from(placed, (p) => p.span.circuitId - 1),
    groups: [1, 2].map((circuitId) => ({ circuitId, voltageKv: 230, phase: 'A' })),
    names: Buffer.from(placed.map((_, i) => `${i}`).join('\0')),
  })
  const circuits = [1, 2].map((id) => ({ id, name: `Q${id}`, voltageKv: 230 }))
  return { splices, lines: buildCircuitIndex({ circuits, spans, structures: [], crossings: [] }), circuitOf: placed.map((p) => p.span.circuitId) }
}

interface Point { x: number; y: number }

/** Px from a point to a drawn line: its vertices joined, and moved to the right by its lane. */
function distancePx(p: Point, line: Point[], asidePx: number): number {
  return Math.min(...line.slice(1).map((b, i) => {
    const a = line[i] ?? b
    const [dx, dy] = [b.x - a.x, b.y - a.y]
    const length = Math.hypot(dx, dy)
    if (length === 0) return Infinity
    const along = ((p.x - a.x) * dx + (p.y - a.y) * dy) / length
    const right = (dx * (p.y - a.y) - dy * (p.x - a.x)) / length
    const beyond = Math.max(0, -along, along - length)
    return Math.hypot(right - asidePx, beyond)
  }))
}

/** How far each single mark is drawn from the nearest line of its circuit, px at that whole zoom. */
function marksBesideLines({ splices, lines, circuitOf }: Corridor, z: number): number[] {
  return circuitOf.flatMap((circuitId, splice) => {
    const i = splices.id.indexOf(splice + 1)
    const tile = { z, x: Math.floor((splices.x[i] ?? 0) / 2 ** (32 - z)), y: Math.floor((splices.y[i] ?? 0) / 2 ** (32 - z)) }
    const mark = decode(spliceTileBytes(splices, tile, {}, 0), 'splices').find((f) => f.id === splice + 1)
    if (!mark) return []
    const [right, down] = drawnAside(mark.properties, z)
    const [place] = mark.points
    const at = { x: (place?.x ?? 0) / UNITS_PER_PX + right, y: (place?.y ?? 0) / UNITS_PER_PX + down }
    // Beyond the last zoom of the lines the renderer enlarges their tiles.
    const zoomed = Math.max(0, z - CIRCUIT_MAX_ZOOM)
    const scale = 2 ** zoomed / UNITS_PER_PX
    const lineTile = { z: z - zoomed, x: tile.x >> zoomed, y: tile.y >> zoomed }
    const from = { x: (tile.x - (lineTile.x << zoomed)) * 512, y: (tile.y - (lineTile.y << zoomed)) * 512 }
    const drawn = decode(circuitTileBytes(lines, new Map(), lineTile, {}), 'circuits').filter((f) => f.id === circuitId)
    return [Math.min(...drawn.map((f) => distancePx(
      at, f.points.map((p) => ({ x: p.x * scale - from.x, y: p.y * scale - from.y })), laneAsidePx(Number(f.properties.lane), z),
    )))]
  })
}

describe.each([
  ['with their offsets known', [-6, 6], false],
  ['that run against each other', [-6, -6], true],
  ['whose offsets nobody gave', [null, null], false],
  ['of which one has an offset', [null, 7], false],
] as const)('two circuits on the same structures %s', (_, offsets, backwards) => {
  let made: Corridor
  beforeAll(async () => { made = await build(corridor([...offsets], backwards)) })

  it.each([13, 14, 15, 16, 17, 18])('have every single mark on its own line at zoom %d', (z) => {
    const besidePx = marksBesideLines(made, z)
    if (z >= 14) expect(besidePx.length).toBeGreaterThanOrEqual(4)
    // Half a pixel is what a tile's units and whole bends leave over.
    for (const px of besidePx) expect(px).toBeLessThan(0.5)
  })
})
