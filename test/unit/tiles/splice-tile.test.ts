import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { CONDITION_CLASSES, type ConditionClass } from '@/lib/condition/types'
import type { SpliceFilter } from '@/lib/contract/filter'
import { EXTENT } from '@/lib/tiles/encode'
import { classMix } from '@/lib/tiles/splices/class-mix'
import { buildSpliceIndex, type SpliceIndex } from '@/lib/tiles/splices/splice-index'
import { spliceTileBytes } from '@/lib/tiles/splices/splice-tile'
import { decode, spliceColumns, tilesOverWorld, type Decoded } from './world'

const FILTERS: [string, SpliceFilter][] = [
  ['no filter', {}],
  ['two classes', { classes: ['urgent', 'critical'] }],
  ['no class at all', { classes: [] }],
  ['two circuits', { circuitIds: [2, 5] }],
  ['one voltage', { voltagesKv: [230] }],
  ['one phase and those not confirmed', { phases: ['A', 'unknown'] }],
  ['everything at once', { classes: ['sound', 'unknown'], circuitIds: [1, 2, 3], voltagesKv: [115], phases: ['B'] }],
]

/** Half of the invented splices are to be measured again before it, days since 1970. */
const TODAY = 20_005

const classAt = (index: SpliceIndex, i: number): ConditionClass => CONDITION_CLASSES[index.classNo[i] ?? 5] ?? 'unknown'

/** The filter said again in plain words, to compare with. */
function passes(index: SpliceIndex, i: number, f: SpliceFilter): boolean {
  const group = index.groups[index.groupNo[i] ?? 0]
  return (
    (f.classes?.includes(classAt(index, i)) ?? true)
    && (f.circuitIds?.includes(group?.circuitId ?? 0) ?? true)
    && (f.voltagesKv?.includes(group?.voltageKv ?? 0) ?? true)
    && (f.phases?.includes(group?.phase ?? 'unknown') ?? true)
  )
}

function expectedCounts(index: SpliceIndex, filter: SpliceFilter): Record<string, number> {
  const counts = Object.fromEntries(CONDITION_CLASSES.map((c) => [c, 0]))
  for (let i = 0; i < index.count; i++) if (passes(index, i, filter)) counts[classAt(index, i)]!++
  return counts
}

function countsOver(zoom: number, index: SpliceIndex, filter: SpliceFilter): Record<string, number> {
  const counts = Object.fromEntries(CONDITION_CLASSES.map((c) => [c, 0]))
  for (const tile of tilesOverWorld(zoom)) {
    const bytes = spliceTileBytes(index, tile, filter, TODAY)
    for (const { properties } of decode(bytes, 'clusters')) for (const c of CONDITION_CLASSES) counts[c]! += Number(properties[c])
    for (const { properties } of decode(bytes, 'splices')) counts[String(properties.class)]!++
  }
  return counts
}

describe('splice tiles', async () => {
  const index = await buildSpliceIndex(spliceColumns(4000))

  for (const [name, filter] of FILTERS) {
    it(`count every splice of the filter exactly once at every zoom: ${name}`, () => {
      const expected = expectedCounts(index, filter)
      for (const zoom of [0, 3, 5, 6, 7, 8, 9, 10])
        expect({ zoom, counts: countsOver(zoom, index, filter) }).toEqual({ zoom, counts: expected })
    })
  }

  it('agree across the edges of tiles whatever the data', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 1e6 }), fc.integer({ min: 4, max: 9 }), async (seed, zoom) => {
        const other = await buildSpliceIndex(spliceColumns(600, seed))
        expect(countsOver(zoom, other, {})).toEqual(expectedCounts(other, {}))
      }),
      { numRuns: 25 },
    )
  })

  const tileOf = (i: number, z: number) => ({
    z,
    x: Math.floor((index.x[i] ?? 0) / 2 ** (32 - z)),
    y: Math.floor((index.y[i] ?? 0) / 2 ** (32 - z)),
  })
  const near = (z: number, layer: string): Decoded[] => {
    const tiles = new Map(Array.from({ length: 200 }, (_, k) => tileOf(k * 20, z)).map((t) => [`${t.x},${t.y}`, t]))
    return [...tiles.values()].flatMap((t) => decode(spliceTileBytes(index, t, {}, TODAY), layer))
  }

  it('keep every feature within its own tile, so that none is drawn twice or lost', () => {
    for (const z of [5, 8, 11, 14, 16, 18]) {
      for (const { points } of [...near(z, 'clusters'), ...near(z, 'splices')]) {
        for (const { x, y } of points) expect(x >= 0 && y >= 0 && x < EXTENT && y < EXTENT).toBe(true)
      }
    }
  })

  it('say of a cluster its total, what needs action, and its worst class leaving out unknown', () => {
    for (const { properties: p } of near(8, 'clusters')) {
      expect(CONDITION_CLASSES.reduce((sum, c) => sum + Number(p[c]), 0)).toBe(p.total)
      const measured = CONDITION_CLASSES.filter((c) => c !== 'unknown' && Number(p[c]) > 0)
      expect(p.worst).toBe(measured.at(-1) ?? 'unknown')
    }
  })

  it('name single splices, with id, class, circuit and phase', () => {
    const singles = near(16, 'splices')
    expect(singles.length).toBeGreaterThan(100)
    for (const { id, properties: p } of singles) {
      const i = index.id.indexOf(id ?? -1)
      const group = index.groups[index.groupNo[i] ?? 0]
      expect(p).toMatchObject({
        class: classAt(index, i),
        name: index.nameOf(i),
        circuit: group?.circuitId,
        ...(group?.phase ? { phase: group.phase } : {}),
      })
    }
  })

  it('show under a filter the very splices that pass it', () => {
    for (const cls of ['critical', 'urgent', 'unknown'] as const) {
      for (const zoom of [4, 6, 8, 10]) {
        const singles = tilesOverWorld(zoom).flatMap((t) => decode(spliceTileBytes(index, t, { classes: [cls] }, TODAY), 'splices'))
        const ids = singles.map((f) => f.id ?? -1)
        expect(new Set(ids).size).toBe(ids.length)
        for (const { id, properties } of singles) {
          const i = index.id.indexOf(id ?? -1)
          expect([classAt(index, i), properties.class, properties.name]).toEqual([cls, cls, index.nameOf(i)])
          // The invented ones fall due on ten days in turn, by their id.
          expect(properties.past === 1).toBe(20_000 + (((id ?? 0) - 10) % 10) < TODAY)
        }
      }
    }
  })

  it('put splices of one place side by side, phases in order', async () => {
    const columns = spliceColumns(3)
    columns.lonDeg.fill(-114.5)
    columns.latDeg.fill(47.5)
    columns.groupNo.set([2, 0, 1])
    const together = await buildSpliceIndex(columns)
    const tile = (z: number) => ({
      z,
      x: Math.floor((together.x[0] ?? 0) / 2 ** (32 - z)),
      y: Math.floor((together.y[0] ?? 0) / 2 ** (32 - z)),
    })
    expect(decode(spliceTileBytes(together, tile(15), {}, TODAY), 'clusters').map((f) => f.properties.total)).toEqual([3])
    const row = decode(spliceTileBytes(together, tile(17), {}, TODAY), 'splices').map((f) => f.properties)
    expect(row.map((p) => [p.phase, p.step_x ?? 0, p.step_y ?? 0])).toEqual([
      ['A', -1, 0],
      ['B', 0, 0],
      ['C', 1, 0],
    ])
  })

  it('hold no bytes where nothing is', () => {
    expect(spliceTileBytes(index, { z: 8, x: 0, y: 0 }, {}, TODAY).length).toBe(0)
  })
})

describe('class shares', () => {
  it('are sixteen parts, and none for a class that is present is none at all', () => {
    const counts = fc.array(fc.integer({ min: 0, max: 1_000_000 }), { minLength: 6, maxLength: 6 }).filter((c) => c.some((n) => n > 0))
    fc.assert(
      fc.property(counts, (perClass) => {
        const parts = [...classMix(perClass)].map((d) => Number.parseInt(d, 36))
        expect(parts.reduce((a, b) => a + b, 0)).toBe(16)
        parts.forEach((n, i) => expect(n > 0).toBe((perClass[i] ?? 0) > 0))
      }),
    )
  })

  it('show one critical among thousands', () => {
    expect(classMix([9000, 500, 0, 0, 1, 0])).toBe('e10010')
  })
})
