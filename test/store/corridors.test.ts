import Papa from 'papaparse'
import { beforeAll, describe, expect, it } from 'vitest'
import { exportSplices } from '@/lib/cases/export-splices'
import { corridorPage as pageSchema } from '@/lib/contract/corridors'
import { listCircuits } from '@/lib/store/circuits'
import { corridorPage, listCorridors } from '@/lib/store/corridors'
import { BadCursor } from '@/lib/store/cursor'
import { narrowed } from '@/lib/store/scope'
import { useDatabase } from './database'
import { at, buildNetwork, csv, importText, lineFeature, linesFile, report, scope } from './utility'

useDatabase()

const circuits: Record<string, number> = {}
const M_PER_KM = 1000

beforeAll(async () => {
  await buildNetwork()
  // P1 leaves the structures of P2 half way; N runs 40 m beside S1 on structures of its own.
  const along = (northM: number, fromM: number, toM: number) => Array.from({ length: (toM - fromM) / 300 + 1 }, (_, i) => at(fromM + 300 * i, northM))
  const line = (circuit: string, points: { lon: number; lat: number }[]) => (
    { ...lineFeature(circuit, 0), geometry: { type: 'LineString', coordinates: points.map(({ lon, lat }) => [lon, lat]) } })
  const common = along(9_000, 0, 1_500)
  const p1 = [...common, ...along(9_700, 1_800, 3_000)]
  const p2 = [...common, ...along(9_000, 1_800, 3_000)]
  await importText('lines', linesFile([line('P1', p1), line('P2', p2), line('N', along(5_040, 0, 3_000))]), {}, 'more.geojson')
  const named = (circuit: string, points: { lon: number; lat: number }[], prefix: string) => points.map((point, i) => ({ circuit, structure: `${i < common.length ? 'P' : prefix}${i + 1}`, ...point }))
  await report('structures', csv([...named('P1', p1, 'Q'), ...named('P2', p2, 'R'), ...along(5_040, 0, 3_000).map((point, i) => ({ circuit: 'N', structure: `N${i + 1}`, ...point }))]), {}, 'more.csv')
  await report('splices', csv([{ splice_id: 'double', circuit: 'L2', line_distance_m: 1000, phase: 'A' }, { splice_id: 'alone', circuit: 'S1', line_distance_m: 1000, phase: 'A' }]))
  for (const { name, id } of await listCircuits(scope)) circuits[name] = id
})

describe('circuits of one corridor', () => {
  it('are those on the same structures, by name, with how far they run together; what stands beside on its own structures is alone', async () => {
    const { items, next_cursor: next, total } = pageSchema.parse(await corridorPage(scope))
    expect(items.map(({ name, throughout }) => [name, throughout])).toEqual([['L1 / L2', true], ['P1 / P2', false]])
    expect([next, total]).toEqual([null, 2])
    const [whole, partly] = items
    for (const { length_m: lengthM, together_m: togetherM } of whole?.circuits ?? []) expect([lengthM / M_PER_KM, togetherM / M_PER_KM]).toEqual([expect.closeTo(3, 1), expect.closeTo(3, 1)])
    // Five spans of 300 m.
    expect(partly?.circuits.map(({ circuit, circuit_id: id, together_m: m }) => [circuit, id, m])).toEqual([
      ['P1', circuits.P1, expect.closeTo(1500, -1)], ['P2', circuits.P2, expect.closeTo(1500, -1)],
    ])
    expect(partly?.bbox[3]).toBeCloseTo(at(0, 9_700).lat, 3)
    expect(partly?.bbox[2]).toBeCloseTo(at(3_000, 0).lon, 3)
  })

  it('are paged', async () => {
    const first = await corridorPage(scope, undefined, 1)
    const second = await corridorPage(scope, first.next_cursor ?? '', 1)
    expect([...first.items, ...second.items].map(({ name }) => name)).toEqual(['L1 / L2', 'P1 / P2'])
    expect(second.next_cursor).toBeNull()
    await expect(corridorPage(scope, 'made up')).rejects.toThrow(BadCursor)
  })

  it('are told to those alone who may see them both', async () => {
    expect(await listCorridors(narrowed(scope, [circuits.L1 ?? 0, circuits.P1 ?? 0, circuits.P2 ?? 0]))).toMatchObject([{ name: 'P1 / P2' }])
  })

  it('are named in every row of a file of splices', async () => {
    let text = ''
    for await (const part of (await exportSplices(scope, 'csv', { filter: {} }, 'http://localhost', Date.now())).text) text += part
    const { data } = Papa.parse<Record<string, string>>(text.replace(/^\uFEFF/, ''), { header: true, skipEmptyLines: true })
    expect(data.map((row) => [row.splice_id, row.corridor])).toEqual([['double', 'L1 / L2'], ['alone', '']])
  })
})
