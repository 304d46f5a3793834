import { VectorTile } from '@mapbox/vector-tile'
import { PbfReader } from 'pbf'
import { beforeAll, describe, expect, it } from 'vitest'
import { CONDITION_CLASSES } from '@/lib/condition/types'
import type { SpliceFilter } from '@/lib/contract/filter'
import { listCircuits } from '@/lib/store/circuits'
import { narrowed, type Scope } from '@/lib/store/scope'
import { countSplices, listSplices } from '@/lib/store/splices'
import { networkLines, networkMark, packedSplices } from '@/lib/store/tile-sources'
import { worldX, worldY } from '@/lib/tiles/splices/morton'
import { unpackSplices } from '@/lib/tiles/splices/splice-columns'
import { circuitTile, spliceTile, tileEtag } from '@/lib/tiles/tiles'
import { useDatabase } from './database'
import { at, buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()

const WORLD = { z: 0, x: 0, y: 0 }
let circuits: Record<string, number> = {}

beforeAll(async () => {
  await buildNetwork()
  await report('readings', csv([reading('s', 450), reading('bad', 450, { ...at(450, 6), circuit: 'L1', side_a_uohm: 90 })]), { survey: 'Spring' })
  circuits = Object.fromEntries((await listCircuits(scope)).map((c) => [c.name, c.id]))
})

const only = (name: string) => narrowed(scope, [circuits[name] ?? 0])
/** A short line is less than a pixel from far, and not drawn. */
const near = ({ lon, lat }: { lon: number; lat: number }) => ({ z: 12, x: worldX(lon) >>> 20, y: worldY(lat) >>> 20 })
const layersOf = (bytes: Uint8Array) => new VectorTile(new PbfReader(bytes)).layers

async function tileCounts(who: Scope, filter: SpliceFilter) {
  const counts = Object.fromEntries(CONDITION_CLASSES.map((c) => [c, 0]))
  const { clusters, splices } = layersOf((await spliceTile(who, WORLD, filter)).bytes)
  for (let i = 0; i < (clusters?.length ?? 0); i++) for (const c of CONDITION_CLASSES) counts[c]! += Number(clusters?.feature(i).properties[c])
  for (let i = 0; i < (splices?.length ?? 0); i++) counts[String(splices?.feature(i).properties.class)]!++
  return counts
}

describe('tiles from the store', () => {
  it('count what the list counts, for every scope and filter', async () => {
    const filters: SpliceFilter[] = [{}, { phases: ['A'] }, { phases: ['unknown'] }, { circuitIds: [circuits.L1 ?? 0] }, { voltagesKv: [1] }]
    for (const who of [scope, only('L1'), only('S1')]) {
      for (const filter of filters) expect(await tileCounts(who, filter)).toEqual(await countSplices(who, filter))
    }
  })

  it('name every splice as the list does and know which way its line runs', async () => {
    const columns = unpackSplices(await packedSplices(scope))
    const names = Buffer.from(columns.names).toString().split('\0')
    const { items } = await listSplices(scope, { limit: 500 })
    expect(new Map(Array.from(columns.id, (id, i) => [id, names[i]]))).toEqual(new Map(items.map((s) => [s.id, s.splice])))
    for (const s of items) {
      const i = columns.id.indexOf(s.id)
      expect([columns.lonDeg[i], columns.latDeg[i]]).toEqual([s.lon, s.lat])
      expect(columns.axisDeg[i]).toBeLessThan(180)
    }
  })

  it('hold no line of a circuit outside the scope', async () => {
    const lines = await networkLines(only('S1'))
    expect(new Set(lines.spans.map((s) => s.circuitId))).toEqual(new Set([circuits.S1]))
    expect(lines.circuits.map((c) => c.name)).toEqual(['S1'])
    const { circuits: drawn } = layersOf((await circuitTile(only('S1'), near(at(1000, 5000)), {})).bytes)
    expect(Array.from({ length: drawn?.length ?? 0 }, (_, i) => drawn?.feature(i).properties.name)).toEqual(['S1'])
  })

  it('change their ETag with scope, filter, policy and every change of the store, and else keep it', async () => {
    const before = await tileEtag(scope, {})
    expect(await tileEtag(scope, {})).toBe(before)
    expect(new Set([before, await tileEtag(only('L1'), {}), await tileEtag(scope, { phases: ['A'] })]).size).toBe(3)
    await report('readings', csv([reading('later', 900)]), { survey: 'Summer' })
    const after = await tileEtag(scope, {})
    expect(after).not.toBe(before)
    expect((await spliceTile(scope, WORLD, {})).etag).toBe(after)
    expect(await tileCounts(scope, {})).toEqual(await countSplices(scope, {}))
  })

  it('read the lines again only when a line changed', async () => {
    const mark = await networkMark(scope)
    await report('readings', csv([reading('latest', 1200)]), { survey: 'Autumn' })
    expect(await networkMark(scope)).toBe(mark)
  })
})
