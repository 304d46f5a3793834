import { beforeAll, describe, expect, it } from 'vitest'
import { circuitSummary, spliceDetail, spliceList } from '@/lib/contract/contract'
import { getCircuit, listCircuits } from '@/lib/store/circuits'
import { rebuildCoverage } from '@/lib/store/coverage'
import { listHealth } from '@/lib/store/health'
import { searchStore } from '@/lib/store/search'
import { sql } from '@/lib/store/sql/sql'
import { getSplice } from '@/lib/store/splice-detail'
import { listSplices } from '@/lib/store/splices'
import { storeState } from '@/lib/store/state'
import { database, inTransaction } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { at, buildNetwork, csv, reading, report, scope } from './utility'

useDatabase()

beforeAll(async () => {
  await buildNetwork()
  const ratios = [0.5, 0.6, 1.1, 1.2, 1.6, 2.2, 3.4, 0.55, 0.7, 0.9]
  await report('readings', csv([
    ...ratios.map((k, i) => reading(`s${i}`, 150 + 290 * i, { phase: 'ABC'[i % 3] ?? 'A', side_a_uohm: 20 * k, conductor_uohm: 20 })),
    ...ratios.slice(0, 4).map((k, i) => reading(`l${i}`, 0, { ...at(150 + 290 * i, 6), circuit: 'L1', gnss_accuracy_m: 1, side_a_uohm: 20 * k, conductor_uohm: 20 })),
  ]), { survey: 'Spring' })
  await report('splices', csv([{ splice_id: 'unread', circuit: 'L2', line_distance_m: 500, phase: 'B' }]))
  await report('extents', csv([{ survey: 'Patrol', circuit: 'L2', structure_from: '2', structure_to: '5', surveyed_on: '2026-05-01', method: 'visual', result: 'no exception' }]))
})

describe('the roll-up of a circuit', () => {
  it('lists the worst circuit first, and a patrol sets coverage but never a class', async () => {
    const list = await listHealth(scope)
    expect(list.map((h) => h.circuit)).toEqual(['S1', 'L2', 'L1'])
    expect(list[0]).toMatchObject({ counts: { critical: 1, urgent: 1 }, last_surveyed_on: '2026-06-01' })
    expect(list[1]).toMatchObject({ counts: { unknown: 1 }, worst_splice: null, last_surveyed_on: '2026-05-01', coverage: { covered_span_phases: 9, conclusive_span_phases: 0 } })
  })
})

describe('coverage', () => {
  it('that an import writes is what the database makes of its readings and patrols', async () => {
    const all = () => database().rows(sql`SELECT span_id, phase, method, surveyed_on, survey_id, import_id FROM span_coverage ORDER BY 1, 2, 3, 5, 6`)
    const written = await all()
    expect(written).toHaveLength(14 + 9)
    const imports = await database().rows<{ id: number }>(sql`SELECT id FROM import`)
    await inTransaction((tx) => rebuildCoverage(scope, imports.map((i) => i.id), tx))
    expect(await all()).toEqual(written)
  })
})

describe('lists', () => {
  it('keep to the contract', async () => {
    const list = await listSplices(scope)
    expect(() => spliceList.parse(list)).not.toThrow()
    for (const { id } of list.items) {
      const detail = await getSplice(scope, id)
      expect(() => spliceDetail.parse(detail)).not.toThrow()
    }
    for (const circuit of await listCircuits(scope)) expect(() => circuitSummary.parse(circuit)).not.toThrow()
    expect((await getCircuit(scope, (await listCircuits(scope))[0]?.id ?? 0))?.sections).toHaveLength(1)
  })

  it('page in each order without a gap or a double', async () => {
    const whole = (await listSplices(scope, { limit: 500 })).items.map((s) => s.id).sort()
    for (const sort of ['worst', 'place', 'recent'] as const) {
      const seen: number[] = []
      let cursor: string | undefined
      do {
        const page = await listSplices(scope, { sort, limit: 4, cursor })
        seen.push(...page.items.map((s) => s.id))
        cursor = page.next_cursor ?? undefined
      } while (cursor)
      expect([...seen].sort()).toEqual(whole)
      expect(new Set(seen).size).toBe(seen.length)
    }
    const worst = (await listSplices(scope, { limit: 500 })).items
    expect(worst.slice(0, 3).map((s) => s.class)).toEqual(['critical', 'urgent', 'degraded'])
    expect(worst.at(-1)?.class).toBe('unknown')
  })

  it('say how many urgent and critical the filter hides', async () => {
    expect((await listSplices(scope, { filter: { classes: ['sound', 'watch'] } })).hidden).toEqual({ urgent: 1, critical: 1 })
    expect((await listSplices(scope, { filter: { phases: ['A'] } })).hidden).toEqual({ urgent: 1, critical: 0 })
    expect((await listSplices(scope, { filter: { classes: [] } }))).toMatchObject({ items: [], total: 0, hidden: { urgent: 1, critical: 1 } })
    expect((await listSplices(scope)).hidden).toEqual({ urgent: 0, critical: 0 })
    expect((await listSplices(scope, { filter: { voltagesKv: [115] } })).total).toBe(0)
  })

  it('keep to a box, also across the 180th meridian', async () => {
    const { lon, lat } = at(150, 5_000)
    const near = await listSplices(scope, { bbox: [lon - 0.001, lat - 0.001, lon + 0.001, lat + 0.001] })
    expect(near.total).toBe(1)
    expect((await listSplices(scope, { bbox: [170, -90, lon + 0.001, 90] })).items.every((s) => s.lon <= lon + 0.001)).toBe(true)
    expect((await listSplices(scope, { bbox: [170, -90, -170, 90] })).total).toBe(0)
  })

  it('refuse a cursor that is none', async () => {
    await expect(listSplices(scope, { cursor: 'nonsense' })).rejects.toThrow('is no cursor of this list')
  })
})

describe('search', () => {
  it.each([
    ['s1', 'circuit', 'S1'], ['l1 line', 'circuit', 'L1'], ['unread', 'splice', 'unread'], ['STR S4', 'structure', 'S4'], ['11', 'structure', '11'],
    ['47.01, -114.02', 'place', '47.01000, -114.02000'],
  ])('finds %s', async (query, kind, label) => {
    expect(await searchStore(scope, query)).toContainEqual(expect.objectContaining({ kind, label }))
  })

  it('tells structures of one number apart by the circuits they carry', async () => {
    const rows = await database().rows<{ id: number; circuit: string }>(sql`
      SELECT DISTINCT ss.structure_id AS id, c.name AS circuit FROM section_structure ss JOIN section s ON s.id = ss.section_id JOIN circuit c ON c.id = s.circuit_id
      JOIN structure x ON x.id = ss.structure_id WHERE x.label = 'S4'`)
    const found = (await searchStore(scope, 'S4')).filter((i) => i.kind === 'structure' && i.label === 'S4')
    expect(found.length).toBeGreaterThan(0)
    for (const { id, circuits } of found) expect(circuits).toEqual(rows.filter((r) => r.id === id).map((r) => r.circuit).sort())
  })

  it.each(['S1 S4', 's1 STR S4', 'S1 S4-S5', 'S1, structure S4'])('finds a structure of one circuit as people say it: %s', async (query) => {
    const found = await searchStore(scope, query)
    expect(found.map((i) => [i.kind, i.label])).toContainEqual(['structure', 'S4'])
    expect(found.every((i) => i.circuits.includes('S1'))).toBe(true)
    expect(await searchStore(scope, query.replace(/^s1/i, 'no-such'))).toEqual([])
  })

  it('takes wildcards for what they are', async () => {
    expect(await searchStore(scope, '%')).toEqual([])
    expect(await searchStore(scope, '   ')).toEqual([])
  })
})

describe('the state of the store', () => {
  it('counts what waits and bounds the network', async () => {
    const state = await storeState(scope)
    expect(state).toMatchObject({ review_count: 0, urgent_count: 2, policy_version: 1, counts: { critical: 1, urgent: 1, unknown: 1 } })
    expect(state.network_bbox?.[0]).toBeCloseTo(-114, 3)
  })
})
