import { beforeAll, describe, expect, it } from 'vitest'
import { undoImport } from '@/lib/cases/undo-import'
import { coverageOfCircuit } from '@/lib/store/coverage'
import { getHealth } from '@/lib/store/health'
import { listCircuits } from '@/lib/store/circuits'
import { loadNetwork } from '@/lib/store/network'
import { getReading, readingsOfImport } from '@/lib/store/readings'
import { getSplice } from '@/lib/store/splice-detail'
import { listSplices } from '@/lib/store/splices'
import { sql } from '@/lib/store/sql/sql'
import { database } from '@/lib/store/transaction'
import { useDatabase } from './database'
import { at, buildNetwork, csv, importText, lineFeature, linesFile, reading, report, scope } from './utility'

useDatabase()

let readingsImport = 0

beforeAll(async () => {
  await buildNetwork()
  await report('splices', csv([
    { splice_id: 'K1', circuit: 'S1', structure_back: 'S2', structure_ahead: 'S3', line_distance_m: 450, phase: 'A' },
    { splice_id: 'K2', circuit: 'S1', structure_back: 'S6', structure_ahead: 'S7', line_distance_m: 1700, phase: 'B' },
  ]))
  readingsImport = (await report('readings', csv([reading('a', 450), reading('b', 1700, { phase: 'B' })]), { survey: 'Spring' })).import_id
  await report('extents', csv([{ survey: 'Patrol', circuit: 'S1', structure_from: 'S6', structure_to: 'S8', surveyed_on: '2026-05-01', method: 'infrared' }]))
})

const splice = async (name: string) => {
  const id = (await listSplices(scope)).items.find((s) => s.splice === name)?.id ?? 0
  return getSplice(scope, id)
}
const s1 = async () => (await listCircuits(scope)).find((c) => c.name === 'S1')?.id ?? 0

/** S1 with a bend between its third and fourth structure that makes everything beyond it lie farther from the named end. */
function bent(northM: number): object {
  const straight = lineFeature('S1', 5_000)
  const coordinates = [...straight.geometry.coordinates]
  const { lon, lat } = at(750, 5_000 + northM)
  coordinates.splice(3, 0, [lon, lat])
  return { ...straight, geometry: { type: 'LineString', coordinates } }
}

describe('new geometry of a line that has splices', () => {
  it('keeps structure and offset of each splice and works its line distance out anew', async () => {
    const before = { K1: await splice('K1'), K2: await splice('K2') }
    const { report: changed } = await importText('lines', linesFile([bent(200) as ReturnType<typeof lineFeature>]), {}, 'bent.geojson')
    expect(changed).toMatchObject({ rows: 1, read: 1, rejected: 0, already_held: 0 })
    const after = { K1: await splice('K1'), K2: await splice('K2') }
    expect(after.K1).toMatchObject({ structure_back: 'S2', structure_ahead: 'S3', class: before.K1?.class, reading_count: 1 })
    expect(after.K1?.line_distance_m).toBeCloseTo(before.K1?.line_distance_m ?? 0, 1)
    expect(after.K2).toMatchObject({ structure_back: 'S6', structure_ahead: 'S7', reading_count: 1 })
    expect(after.K2?.offset_m).toBeCloseTo(before.K2?.offset_m ?? 0, 1)
    // The detour over a point 200 m to the side: two legs of 250 m instead of a span of 300 m.
    expect((after.K2?.line_distance_m ?? 0) - (before.K2?.line_distance_m ?? 0)).toBeGreaterThan(150)
    expect(after.K2?.lon).toBeCloseTo(before.K2?.lon ?? 0, 4)
  })

  it('keeps readings on their splice, in spans that exist', async () => {
    const readings = (await readingsOfImport(scope, readingsImport)).items
    expect(readings.map((r) => [r.placement.state, r.placement.splice])).toEqual([['placed', 'K1'], ['placed', 'K2']])
    const spans = new Set((await loadNetwork(scope)).spans.map((s) => s.spanId))
    for (const { id } of readings) expect(spans.has((await getReading(scope, id))?.placement.span_id ?? 0)).toBe(true)
  })

  it('keeps patrols between their structures and coverage with them', async () => {
    const seen = (await coverageOfCircuit(scope, await s1())).filter((span) => span.seen.some((s) => s.method === 'infrared'))
    expect(seen.map((span) => `${span.structure_back}-${span.structure_ahead}`)).toEqual(['S6-S7', 'S7-S8'])
    expect(await getHealth(scope, await s1())).toMatchObject({ coverage: { span_count: 10, span_phase_count: 30, covered_span_phases: 7 } })
  })

  it('is refused by row where a splice would lose its structure; the line stays as it was', async () => {
    const before = await splice('K2')
    const shortened = lineFeature('S1', 5_000)
    shortened.geometry.coordinates = shortened.geometry.coordinates.slice(0, 4)
    const { report: refused } = await importText('lines', linesFile([shortened, lineFeature('N1', 8_000)]), {}, 'short.geojson')
    expect(refused).toMatchObject({ rows: 2, read: 1, rejected: 1 })
    expect(refused.issues.find((i) => i.severity === 'error')).toMatchObject({ row: 1, code: 'splices-lose-place', message: expect.stringContaining('K2') })
    expect(await splice('K2')).toEqual(before)
    expect((await listCircuits(scope)).map((c) => c.name).sort()).toEqual(['L1', 'L2', 'N1', 'S1'])
  })

  it('comes back by undo', async () => {
    const bentImport = await database().row<{ id: number }>(sql`SELECT id FROM import WHERE file_name = 'bent.geojson'`)
    expect(await undoImport(scope, bentImport?.id ?? 0, 'tester')).toMatchObject({ ok: true })
    expect((await splice('K2'))?.line_distance_m).toBeCloseTo(1700, 0)
    expect((await splice('K2'))?.reading_count).toBe(1)
    expect(await getHealth(scope, await s1())).toMatchObject({ coverage: { covered_span_phases: 7 } })
  })
})

describe('structures that come after the splices', () => {
  it('give the splices on their spans a structure to hang on', async () => {
    await importText('lines', linesFile([lineFeature('P1', 12_000)]), {}, 'plain.geojson')
    await report('splices', csv([{ splice_id: 'P-1', circuit: 'P1', line_distance_m: 1000, phase: 'A' }]))
    expect(await splice('P-1')).toMatchObject({ structure_back: null, structure_ahead: null, position_text: expect.stringContaining('line distance') })
    const places = Array.from({ length: 11 }, (_, i) => ({ circuit: 'P1', structure: `P${i + 1}`, ...at(i * 300, 12_000) }))
    await report('structures', csv(places))
    const after = await splice('P-1')
    expect(after).toMatchObject({ structure_back: 'P4', structure_ahead: 'P5' })
    expect(after?.line_distance_m).toBeCloseTo(1000, 1)
    expect(after?.offset_m).toBeCloseTo(1000 - 900 * 1.0, -1)
  })
})
