import { beforeAll, describe, expect, it } from 'vitest'
import { circuitSummary, spliceDetail, spliceList } from '@/lib/contract/contract'
import { getCircuit, listCircuits } from '@/lib/store/circuits'
import { rebuildCoverage } from '@/lib/store/coverage'
import { listHealth } from '@/lib/store/health'
import { geodesicLengthM } from '@/lib/geo'
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
    expect((await searchStore(scope, query)).items).toContainEqual(expect.objectContaining({ kind, label }))
  })

  it('tells structures of one number apart by the circuits they carry', async () => {
    const rows = await database().rows<{ id: number; circuit: string }>(sql`
      SELECT DISTINCT ss.structure_id AS id, c.name AS circuit FROM section_structure ss JOIN section s ON s.id = ss.section_id JOIN circuit c ON c.id = s.circuit_id
      JOIN structure x ON x.id = ss.structure_id WHERE x.label = 'S4'`)
    const found = (await searchStore(scope, 'S4')).items.filter((i) => i.kind === 'structure' && i.label === 'S4')
    expect(found.length).toBeGreaterThan(0)
    for (const { id, circuits } of found) expect(circuits).toEqual(rows.filter((r) => r.id === id).map((r) => r.circuit).sort())
  })

  it.each(['S1 S4', 's1 STR S4', 'S1 S4-S5', 'S1, structure S4'])('finds a structure of one circuit as people say it: %s', async (query) => {
    const found = (await searchStore(scope, query)).items
    expect(found.map((i) => [i.kind, i.label])).toContainEqual(['structure', 'S4'])
    expect(found.every((i) => i.circuits.includes('S1'))).toBe(true)
    expect((await searchStore(scope, query.replace(/^s1/i, 'no-such'))).items).toEqual([])
  })

  it('takes a distance along a span to its point, and counts from the structure that is named', async () => {
    // The spans of the network are 300 m by construction; the point is measured with the ellipsoid on which lines are measured.
    const [structure] = (await searchStore(scope, 'S4')).items.filter((i) => i.label === 'S4')
    const [next] = (await searchStore(scope, 'S5')).items.filter((i) => i.label === 'S5')
    if (!structure || !next) throw new Error('S4 and S5 are not on file.')
    for (const [text, fromS4M] of [
      ['S4-S5 + 100 ft', 30.48], ['STR S4-S5, 60 m ahead of S4', 60], ['s1 s4-s5, 60 m back of s5', -60], ['S4+100 ft', 30.48], ['S5-S4 + 60 m', -60], ['60 m back of S5', -60],
    ] as const) {
      const { items, note } = await searchStore(scope, text)
      expect([text, note, items.length]).toEqual([text, undefined, 1])
      const [from, lengthM] = fromS4M < 0 ? [next, -fromS4M] : [structure, fromS4M]
      expect(items[0]).toMatchObject({ kind: 'place', circuits: ['S1'] })
      expect(geodesicLengthM(from.lon, from.lat, items[0]?.lon ?? 0, items[0]?.lat ?? 0)).toBeCloseTo(lengthM, 2)
    }
  })

  it('gives circuits on the same structures one place', async () => {
    expect((await searchStore(scope, '3-4 + 50 m')).items.map((i) => i.circuits)).toEqual([['L1', 'L2']])
  })

  it('says how long the span is where a distance leads out of it, and goes nowhere', async () => {
    for (const text of ['S4-S5 + 1000 ft', 'S4-S5, 500 m ahead of S4', 'S4 + 500 m', 'S4-S5, 10 m back of S4', 'S4-S5, 10 m ahead of S5']) {
      const { items, note } = await searchStore(scope, text)
      expect(items.filter(({ kind }) => kind === 'place')).toEqual([])
      expect(note).toMatch(/^STR S\d-S\d of S1 is \{(299|300|301) m\} long: '.+' leads out of it\.$/)
    }
  })

  it('never passes over a part of what was typed', async () => {
    expect((await searchStore(scope, 'S4-S5 + 404')).note).toContain('404 m or 404 ft')
    expect((await searchStore(scope, 'S4-S5 + 404 parsecs')).note).toContain('Only the structure was understood')
    expect((await searchStore(scope, 'S4-S7')).note).toContain('No line has a span between these two structures')
    expect((await searchStore(scope, 'S4-S5')).items[0]).toMatchObject({ kind: 'place', label: 'STR S4-S5, halfway' })
  })

  it('takes wildcards for what they are', async () => {
    expect((await searchStore(scope, '%')).items).toEqual([])
    expect((await searchStore(scope, '   ')).items).toEqual([])
  })
})

describe('the state of the store', () => {
  it('counts what waits and bounds the network', async () => {
    const state = await storeState(scope)
    expect(state).toMatchObject({ review_count: 0, urgent_count: 2, policy_version: 1, counts: { critical: 1, urgent: 1, unknown: 1 } })
    expect(state.network_bbox?.[0]).toBeCloseTo(-114, 3)
  })
})
