import { beforeAll, describe, expect, it } from 'vitest'
import type { SpliceFilter } from '@/lib/contract/filter'
import { circuitStrip } from '@/lib/contract/strip'
import { listCircuits } from '@/lib/store/circuits'
import { narrowed } from '@/lib/store/scope'
import { getSplice } from '@/lib/store/splice-detail'
import { listSplices } from '@/lib/store/splices'
import { stripOfCircuit } from '@/lib/store/strip'
import { useDatabase } from './database'
import { at, buildNetwork, csv, importText, lineFeature, linesFile, reading, report, scope } from './utility'

useDatabase()

let circuits: Record<string, number> = {}

beforeAll(async () => {
  await buildNetwork()
  // Other tests' network has one section a circuit; a tap is a section of its own.
  await importText('lines', linesFile([{
    ...lineFeature('S1', 5_000, { section: 'north tap' }),
    geometry: { type: 'LineString', coordinates: [at(900, 5_000), at(900, 5_700)].map(({ lon, lat }) => [lon, lat]) },
  }]))
  await report('crossings', csv([
    { circuit: 'S1', line_distance_m: 1200, kind: 'river', name: 'Cold Creek' }, { circuit: 'S1', line_distance_m: 500, kind: 'road', name: '' },
  ]))
  await report('splices', csv([
    { splice_id: 'far', circuit: 'S1', section: 'main', line_distance_m: 2100, phase: 'B', kind: 'full-tension splice', subconductor: '' },
    { splice_id: 'bad', circuit: 'S1', section: 'main', line_distance_m: 450, phase: 'A', kind: 'full-tension splice', subconductor: '1' },
    { splice_id: 'where', circuit: 'S1', section: 'main', line_distance_m: 1500, phase: '', position: 'top', kind: 'full-tension splice' },
    { splice_id: 'gone', circuit: 'S1', section: 'main', line_distance_m: 2000, phase: 'B', kind: 'full-tension splice', removed_on: '2025-01-01' },
  ]))
  await report('splices', csv([
    { splice_id: 'beside', circuit: 'L2', line_distance_m: 1000, phase: 'A' }, { splice_id: 'own', circuit: 'L1', line_distance_m: 1300, phase: 'B' },
  ]), {}, 'double.csv')
  await report('readings', csv([reading('r', 450, { splice_id: 'bad', circuit: 'S1', side_a_uohm: 46 })]))
  await report('extents', csv([{
    survey: 'by eye', circuit: 'S1', structure_from: 'S4', structure_to: 'S6', surveyed_on: '2026-03-01', method: 'visual', result: 'no exception',
  }]))
  circuits = Object.fromEntries((await listCircuits(scope)).map(({ name, id }) => [name, id]))
})

const ofS1 = async () => circuitStrip.parse(await stripOfCircuit(scope, circuits.S1 ?? 0))

describe('a circuit straightened', () => {
  it('has its sections with the stretch they cover, the main one first, and named structures in line order', async () => {
    const { sections } = await ofS1()
    expect(sections.map(({ name }) => name)).toEqual(['main', 'north tap'])
    expect(sections[0]).toMatchObject({ from: 'West', to: 'East', start_m: 0, end_m: expect.closeTo(3000, -1) })
    expect(sections[1]).toMatchObject({ start_m: 0, end_m: expect.closeTo(700, -1), structures: [] })
    expect(sections[0]?.structures.map(({ structure }) => structure)).toEqual(Array.from({ length: 11 }, (_, i) => `S${i + 1}`))
    expect(sections[0]?.structures[4]?.line_distance_m).toBeCloseTo(1200, -1)
  })

  it('has the splices in service in line order, as their own sheets have them', async () => {
    const { splices } = await ofS1()
    expect(splices.map(({ splice }) => splice)).toEqual(['bad', 'where', 'far'])
    const [bad, where] = splices
    const detail = await getSplice(scope, bad?.id ?? 0)
    expect(bad).toMatchObject({
      class: detail?.class, ratio: detail?.ratio, confidence: detail?.confidence, held: detail?.held, measure_by: detail?.measure_by,
      structure_back: 'S2', structure_ahead: 'S3', phase: 'A', subconductor: '1', lon: detail?.lon, lat: detail?.lat,
    })
    expect(['urgent', 'critical']).toContain(bad?.class)
    // Nobody knows the phase, and nothing guesses it.
    expect(where).toMatchObject({ phase: null, position: 'top', class: 'unknown', ratio: null })
  })

  it('says of every span and phase when it was last looked at, and whether that proves anything', async () => {
    const { spans } = await ofS1()
    const seenAt = (back: string) => spans.find(({ structure_back: name }) => name === back)?.seen
    expect(seenAt('S2')).toMatchObject([{ phase: 'A', surveyed_on: '2026-06-01', exceptions_only: false, conclusive_on: '2026-06-01' }])
    // A patrol by eye shows no failing splice, and wrote down its finds alone.
    expect(seenAt('S4')).toMatchObject(['A', 'B', 'C'].map((phase) => ({ phase, surveyed_on: '2026-03-01', exceptions_only: true, conclusive_on: null })))
    expect(seenAt('S9')).toEqual([])
    const second = spans.find(({ structure_back: name }) => name === 'S2')
    expect(second?.lon_lat[0]).toBeCloseTo(at(300, 5_000).lon, 4)
    expect(second?.lon_lat.at(-1)).toBeCloseTo(at(600, 5_000).lat, 4)
  })

  it('has its crossings in line order', async () => {
    expect((await ofS1()).crossings).toMatchObject([
      { kind: 'road', name: null, line_distance_m: 500 }, { kind: 'river', name: 'Cold Creek', line_distance_m: 1200 },
    ])
  })

  it('has the circuit on the same structures beside it, abreast of its own line distance', async () => {
    const strip = circuitStrip.parse(await stripOfCircuit(scope, circuits.L1 ?? 0))
    expect(strip.splices.map(({ splice }) => splice)).toEqual(['own'])
    expect(strip.beside.map(({ circuit }) => circuit)).toEqual(['L2'])
    const [other] = strip.beside
    expect(other?.stretches).toHaveLength(10)
    expect(other?.splices.map(({ splice }) => splice)).toEqual(['beside'])
    expect(other?.splices[0]?.abreast.line_distance_m).toBeCloseTo(1000, 0)
    expect((await ofS1()).beside).toEqual([])
    // Who may not see the other circuit learns nothing of it.
    expect((await stripOfCircuit(narrowed(scope, [circuits.L1 ?? 0]), circuits.L1 ?? 0))?.beside).toEqual([])
  })

  it('says of each splice, beside it too, whether the filter of the list lets it through, and leaves none out', async () => {
    const passing = async (circuit: string, filter: SpliceFilter) => {
      const strip = circuitStrip.parse(await stripOfCircuit(scope, circuits[circuit] ?? 0, filter))
      return [...strip.splices, ...strip.beside.flatMap((other) => other.splices)].map(({ splice, in_filter: passes }) => [splice, passes])
    }
    const listed = async (filter: SpliceFilter) => (await listSplices(scope, { filter, limit: 500 })).items.map(({ splice }) => splice)
    for (const filter of [{}, { classes: ['urgent' as const, 'critical' as const] }, { phases: ['unknown'] }, { evidence: ['none' as const] }, { ages: ['under-1' as const] }, { classes: [] }]) {
      const names = await listed(filter)
      expect(await passing('S1', filter), JSON.stringify(filter)).toEqual(['bad', 'where', 'far'].map((name) => [name, names.includes(name)]))
    }
    expect(await passing('S1', { classes: ['urgent', 'critical'] })).toContainEqual(['bad', true])
    expect(await passing('L1', { circuitIds: [circuits.L1 ?? 0] })).toEqual([['own', true], ['beside', false]])
  })

  it('is seen by those who may see the circuit, and by nobody else', async () => {
    expect(await stripOfCircuit(narrowed(scope, [circuits.L1 ?? 0]), circuits.S1 ?? 0)).toBeUndefined()
    expect(await stripOfCircuit(scope, 999_999)).toBeUndefined()
  })
})
