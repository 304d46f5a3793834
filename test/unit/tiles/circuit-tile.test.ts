import { describe, expect, it } from 'vitest'
import type { LineSpan, NetworkLines } from '@/lib/store/tile-sources'
import { buildCircuitIndex, circuitTileBytes } from '@/lib/tiles/circuits/circuit-index'
import { spanLanes } from '@/lib/tiles/circuits/lanes'
import { lineFeatures, usualRightOfWayM } from '@/lib/tiles/circuits/line-features'
import { decode } from './world'

const STEP_DEG = 0.004
const place = (i: number): [number, number] => [-114.5 + i * STEP_DEG, 47.5]

/** Spans between numbered places on one straight line, west to east or the other way. */
function spansOf(circuitId: number, from: number, to: number, lateralOffsetM: number | null, firstId: number): LineSpan[] {
  const step = Math.sign(to - from)
  return Array.from({ length: Math.abs(to - from) }, (_, k) => {
    const [a, b] = [from + k * step, from + (k + 1) * step]
    return {
      id: firstId + k,
      sectionId: circuitId,
      circuitId,
      ord: k,
      structureBack: `${a}`,
      structureAhead: `${b}`,
      startM: k * 300,
      endM: (k + 1) * 300,
      lateralOffsetM,
      lonLat: [...place(a), ...place(b)],
    }
  })
}

const network = (spans: LineSpan[]): NetworkLines => ({
  circuits: [
    { id: 1, name: 'Q1', voltageKv: 230 },
    { id: 2, name: 'Q2', voltageKv: 230 },
    { id: 3, name: 'Q3', voltageKv: 69 },
  ],
  spans,
  structures: Array.from({ length: 21 }, (_, i) => ({
    id: 100 + i,
    label: `${i}`,
    lon: place(i)[0],
    lat: place(i)[1],
    type: i === 0 ? 'dead-end' : 'tangent',
  })),
  crossings: [
    { id: 7, circuitId: 1, lineDistanceM: 450, kind: 'river', name: 'Low Creek' },
    { id: 9, circuitId: 2, lineDistanceM: 451, kind: 'river', name: 'Low Creek' },
    { id: 8, circuitId: 1, lineDistanceM: 90_000, kind: 'road', name: 'beyond the end' },
  ],
})

const tileAt = (z: number, [lon, lat]: [number, number]) => {
  const angle = (lat * Math.PI) / 180
  return { z, x: Math.floor(((lon + 180) / 360) * 2 ** z), y: Math.floor(((1 - Math.asinh(Math.tan(angle)) / Math.PI) / 2) * 2 ** z) }
}

describe('lanes of circuits on shared structures', () => {
  it('lie left and right of the centreline by their lateral offsets', () => {
    const lanes = spanLanes([...spansOf(1, 0, 5, -6, 1), ...spansOf(2, 0, 5, 6, 11)])
    for (let k = 0; k < 5; k++) expect([lanes.get(1 + k)?.lane, lanes.get(11 + k)?.lane]).toEqual([-0.5, 0.5])
  })

  it('turn their sign with the direction in which a circuit runs', () => {
    // The second circuit looks the other way, so its right is the first one's left.
    const lanes = spanLanes([...spansOf(1, 0, 5, -6, 1), ...spansOf(2, 5, 0, -6, 11)])
    for (let k = 0; k < 5; k++) expect([lanes.get(1 + k)?.lane, lanes.get(11 + k)?.lane]).toEqual([-0.5, -0.5])
  })

  it('do not change sides along a corridor where offsets are not known', () => {
    const lanes = spanLanes([...spansOf(1, 0, 10, null, 1), ...spansOf(2, 0, 10, null, 21), ...spansOf(3, 10, 0, null, 41)])
    for (let k = 0; k < 10; k++) expect([lanes.get(1 + k)?.lane, lanes.get(21 + k)?.lane, lanes.get(41 + k)?.lane]).toEqual([-1, 0, -1])
  })

  it('are zero where a circuit has its structures to itself', () => {
    expect(spanLanes(spansOf(1, 0, 3, -6, 1)).get(2)).toEqual({ lane: 0, riders: [1] })
  })
})

describe('circuit tiles', () => {
  const index = buildCircuitIndex(network([...spansOf(1, 0, 20, -6, 1), ...spansOf(2, 0, 10, 6, 41), ...spansOf(3, 20, 12, null, 81)]))
  const worst = new Map([
    [1, 4],
    [2, 0],
  ])
  const read = (z: number, layer: string, filter = {}, at = place(4)) =>
    decode(circuitTileBytes(index, worst, tileAt(z, at), filter), layer)

  it('carry each circuit with its voltage, lane and worst class; one without splices is unknown', () => {
    const circuits = read(6, 'circuits').map((f) => ({ id: f.id, ...f.properties }))
    expect(circuits).toContainEqual({ id: 1, name: 'Q1', kv: 230, worst: 'critical', lane: -0.5 })
    expect(circuits).toContainEqual({ id: 2, name: 'Q2', kv: 230, worst: 'sound', lane: 0.5 })
    expect(circuits.find((c) => c.id === 3)).toMatchObject({ worst: 'unknown', kv: 69 })
  })

  it('keep circuits that the filter leaves out, marked, and their worst class whatever the filter', () => {
    const circuits = read(6, 'circuits', { circuitIds: [2], classes: ['sound'] })
    expect(
      circuits
        .filter((f) => f.properties.off === 1)
        .map((f) => f.id)
        .sort(),
    ).toEqual(expect.arrayContaining([1, 3]))
    expect(circuits.find((f) => f.id === 1)?.properties.worst).toBe('critical')
    expect(circuits.find((f) => f.id === 2)?.properties.off).toBeUndefined()
    expect(
      read(6, 'circuits', { voltagesKv: [69] })
        .filter((f) => !f.properties.off)
        .map((f) => f.id),
    ).toEqual([3])
  })

  it('name each of two circuits on its own side of the corridor, and three together', () => {
    const names = read(13, 'circuit_names').map(({ properties: p }) => [p.label, p.angle, p.out])
    // The line runs east: left of it is north, right of it south.
    expect(names).toContainEqual(['Q1, 230 kV', 90, 0])
    expect(names).toContainEqual(['Q2, 230 kV', 90, 180])
    const three = lineFeatures(network([1, 2, 3].flatMap((id) => spansOf(id, 0, 5, null, 20 * id))))
    expect(three.circuits.flatMap((f) => (f.properties?.short ? [[f.properties.short, f.properties.outer]] : []))).toEqual([['Q1 + Q2 + Q3', undefined]])
  })

  it('carry of the names only those that have room at their zoom', () => {
    const at = (z: number) => read(z, 'circuit_names')
    expect(at(11).length).toBeLessThan(at(14).length)
    for (const z of [8, 11, 13]) for (const { properties } of at(z)) expect(Number(properties.from)).toBeLessThanOrEqual(z)
  })

  it('show structures, spans and right-of-way from zoom 11, crossings from zoom 10', () => {
    for (const layer of ['structures', 'spans', 'right_of_way']) {
      expect([layer, read(10, layer).length]).toEqual([layer, 0])
      expect(read(11, layer).length).toBeGreaterThan(0)
    }
    expect(read(9, 'crossings')).toEqual([])
    expect(read(10, 'crossings').map((f) => [f.id, f.properties.kind, f.properties.name])).toEqual([[7, 'river', 'Low Creek']])
  })

  it('put a crossing at its line distance, once for all circuits, and leave out one beyond the line', () => {
    const tile = tileAt(14, place(1))
    const [crossing] = decode(circuitTileBytes(index, worst, tile, {}), 'crossings')
    const lon = ((tile.x + (crossing?.points[0]?.x ?? 0) / 4096) / 2 ** 14) * 360 - 180
    expect(lon).toBeCloseTo(-114.5 + 1.5 * STEP_DEG, 5)
  })

  it('give a structure the bearing of its line and the number of circuits it carries', () => {
    const structures = new Map(read(11, 'structures').map((f) => [f.properties.label, f.properties]))
    expect(Math.abs(Number(structures.get('3')?.angle))).toBe(90)
    expect(structures.get('3')?.circuits).toBe(2)
    expect(structures.get('11')?.circuits).toBeUndefined()
  })

  it('draw one band for a corridor, as wide as its highest voltage wants', () => {
    expect(read(11, 'right_of_way').length).toBe(1)
    expect([usualRightOfWayM(null), usualRightOfWayM(69), usualRightOfWayM(138), usualRightOfWayM(230), usualRightOfWayM(765)]).toEqual([
      23, 23, 30, 46, 61,
    ])
  })
})
