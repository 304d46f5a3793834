import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { mortonKey, mortonOrder, tileKeyRange, WORLD, worldX, worldY } from '@/lib/tiles/splices/morton'
import { buildSpliceIndex, visitRect } from '@/lib/tiles/splices/splice-index'
import { spliceColumns } from './world'

const world = fc.integer({ min: 0, max: WORLD - 1 })
const point = fc.record({ x: world, y: world })

describe('Morton order', () => {
  it('sorts every set of positions by key, and keeps equal ones in their order', () => {
    fc.assert(
      fc.property(fc.array(point, { maxLength: 300 }), (points) => {
        const x = Uint32Array.from(points, (p) => p.x)
        const y = Uint32Array.from(points, (p) => p.y)
        const order = Array.from(mortonOrder(x, y))
        expect([...order].sort((a, b) => a - b)).toEqual(points.map((_, i) => i))
        for (let i = 1; i < order.length; i++) {
          const [before = 0, now = 0] = [order[i - 1], order[i]]
          const [keyBefore, keyNow] = [mortonKey(x[before] ?? 0, y[before] ?? 0), mortonKey(x[now] ?? 0, y[now] ?? 0)]
          expect(keyBefore < keyNow || (keyBefore === keyNow && before < now)).toBe(true)
        }
      }),
    )
  })

  it('makes every tile one unbroken range of keys', () => {
    fc.assert(
      fc.property(point, fc.integer({ min: 0, max: 26 }), point, (p, z, q) => {
        const size = WORLD / 2 ** z
        const [tx, ty] = [Math.floor(p.x / size), Math.floor(p.y / size)]
        const [from, to] = tileKeyRange(z, tx, ty)
        const inRange = (key: number) => key >= from && key < to
        expect(inRange(mortonKey(p.x, p.y))).toBe(true)
        expect(inRange(mortonKey(q.x, q.y))).toBe(Math.floor(q.x / size) === tx && Math.floor(q.y / size) === ty)
      }),
    )
  })

  it('holds the ends of the world and of Web Mercator', () => {
    expect([worldX(-180), worldX(180), worldY(90), worldY(-90)]).toEqual([0, WORLD - 1, 0, WORLD - 1])
    expect([worldX(0), worldY(0)]).toEqual([WORLD / 2, WORLD / 2])
  })
})

describe('the splice index', () => {
  it('visits every point of a rectangle once and no other', async () => {
    const index = await buildSpliceIndex(spliceColumns(3000))
    const [spanX, spanY] = [WORLD / 40, WORLD / 60]
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0.001, max: 0.6, noNaN: true }),
        (u, v, share) => {
          const fromX = worldX(-116.5) + u * spanX
          const fromY = worldY(49.5) + v * spanY
          const rect = { fromX, fromY, toX: fromX + share * spanX, toY: fromY + share * spanY }
          const inside = (i: number) => {
            const [x, y] = [index.x[i] ?? 0, index.y[i] ?? 0]
            return x >= rect.fromX && x < rect.toX && y >= rect.fromY && y < rect.toY
          }
          const visited: number[] = []
          visitRect(index, rect, (from, to, whole) => {
            for (let i = from; i < to; i++) {
              if (whole) expect(inside(i)).toBe(true)
              if (inside(i)) visited.push(i)
            }
          })
          expect(visited).toEqual(Array.from({ length: index.count }, (_, i) => i).filter(inside))
        },
      ),
      { numRuns: 60 },
    )
  })

  it('gives every splice its own name back', async () => {
    const columns = spliceColumns(500)
    const index = await buildSpliceIndex(columns)
    for (let i = 0; i < index.count; i++) expect(index.nameOf(i)).toBe(`${(index.id[i] ?? 0) - 10}-é`)
  })

  it('is empty where the store is', async () => {
    const index = await buildSpliceIndex(spliceColumns(0))
    expect([index.count, index.worstOfCircuit.size]).toEqual([0, 0])
  })
})
